using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

/// <summary>The tree of far pieces against the plain sum, which is the reference.</summary>
public sealed class FarFieldTreeTests
{
    private const double Height = 0.12;

    public static TheoryData<string, int> Wires => new() { { "circle", 10_000 }, { "meander", 10_000 }, { "scribble", 5_000 }, { "trench", 2_000 }, { "ragged", 4_001 } };

    [Theory]
    [MemberData(nameof(Wires))]
    public void The_tree_s_field_is_the_plain_sum_s_within_a_millionth_of_its_pieces(string name, int pieces)
    {
        WirePath path = Wire(name, pieces);
        PolylineField field = new(path, Height);
        FarFieldTree tree = field.TreeFor(new(-20, -10), new(110, 90), 1_000_000, CancellationToken.None)!;
        double[] east = [.. Enumerable.Range(0, 131).Select(i => -20 + (i * 0.99))], there = new double[east.Length], sizes = new double[east.Length];
        double worst = 0;
        for (double north = -10; north <= 90; north += 3.17)
        {
            tree.FillRow(north, east, there);
            double[] plain = Plain(path, north, east, sizes);
            for (int i = 0; i < east.Length; i++)
            {
                worst = Math.Max(worst, Math.Abs(there[i] - plain[i]) / sizes[i]);
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{name}: {worst:E1}, {tree.Terms / (pieces * 1e6):P2} of the terms");
        Assert.InRange(worst, 0, 1e-6);
        Assert.True(worst > 0, "the plain sum was called");
    }

    // A scribble of long pieces, each bundle all over the place, is the worst that can be handed in.
    [Theory]
    [InlineData("circle", 10_000, 0.03)]
    [InlineData("meander", 10_000, 0.03)]
    [InlineData("trench", 2_000, 0.03)]
    [InlineData("ragged", 4_001, 0.05)]
    [InlineData("scribble", 5_000, 0.15)]
    public void Ten_thousand_pieces_at_a_million_places_take_a_small_share_of_the_plain_sum_s_terms(string name, int pieces, double share)
    {
        FarFieldTree tree = new PolylineField(Wire(name, pieces), Height).TreeFor(new(-20, -10), new(110, 90), 1_000_000, CancellationToken.None)!;

        Assert.InRange(tree.Terms, 1, share * pieces * 1_000_000);
    }

    [Fact]
    public void Small_sums_stay_piece_by_piece_to_the_last_bit()
    {
        PolylineField field = new(Wire("circle", 2_000), Height);
        PlanGrid grid = new(new(-20, -10), 0.5, 300, 300);
        FieldMap map = new(field, grid);

        Assert.Null(field.TreeFor(grid.SouthWest, grid[299, 299], grid.Count, CancellationToken.None));
        Assert.Equal(field.VerticalFieldPerAmpere(grid[17, 203]), map[17, 203]);
    }

    [Fact]
    public void A_large_map_is_that_of_the_tree()
    {
        PolylineField field = new(Wire("circle", 10_000), Height);
        PlanGrid grid = new(new(-10, -10), 0.8, 150, 140);
        FieldMap map = new(field, grid);
        double mean = map.FieldPerAmpere.ToArray().Average(Math.Abs);

        for (int i = 0; i < 140; i += 9)
        {
            Assert.Equal(field.VerticalFieldPerAmpere(grid[i, i]), map[i, i], 1e-6 * mean);
        }
    }

    [Fact]
    public void Cancelling_ends_the_making_of_a_tree()
    {
        using CancellationTokenSource source = new();
        source.Cancel();

        Assert.ThrowsAny<OperationCanceledException>(() => new PolylineField(Wire("circle", 10_000), Height).TreeFor(new(0, 0), new(90, 90), 1_000_000, source.Token));
    }

    private static double[] Plain(WirePath path, double north, double[] east, double[] sizes)
    {
        double[] sum = new double[east.Length];
        for (int i = 0; i < east.Length; i++)
        {
            (sum[i], sizes[i]) = (0, 0);
            for (int piece = 0; piece + 1 < path.Points.Count; piece++)
            {
                PlanPoint a = path.Points[piece], b = path.Points[piece + 1];
                double one = SegmentField.FieldPerAmpere(new(a.EastMetres, a.NorthMetres, 0), new(b.EastMetres, b.NorthMetres, 0), new(east[i], north, Height))!.Value.Z;
                (sum[i], sizes[i]) = (sum[i] + one, sizes[i] + Math.Abs(one));
            }
        }

        return sum;
    }

    private static WirePath Wire(string name, int pieces)
    {
        Random random = new(1);
        return new(name switch
        {
            "circle" => Enumerable.Range(0, pieces + 1).Select(i => new PlanPoint(45 + (40 * Math.Cos(i * Math.Tau / pieces)), 40 + (40 * Math.Sin(i * Math.Tau / pieces)))),

            // To and fro, a metre apart: 80 lines of 80 m.
            "meander" => Enumerable.Range(0, pieces + 1).Select(i => new PlanPoint(i * 80.0 / pieces, 40 + (40 * Math.Sin(i * 80 * Math.PI / pieces)))),
            "scribble" => Enumerable.Range(0, pieces + 1).Select(_ => new PlanPoint(30 + (30 * random.NextDouble()), 30 * random.NextDouble())),

            // There and back in one trench: the fields of the two wires cancel.
            "trench" => Enumerable.Range(0, pieces + 1).Select(i => new PlanPoint(90.0 * Math.Min(i, pieces - i) / pieces, 20 + (i > pieces / 2 ? 0.01 : 0))),

            // Long pieces among tiny ones.
            _ => Enumerable.Range(0, pieces + 1).Select(i => i % 500 == 0 ? new PlanPoint(90 * random.NextDouble(), 80 * random.NextDouble()) : new PlanPoint(50 + random.NextDouble(), 50 + random.NextDouble())),
        });
    }
}
