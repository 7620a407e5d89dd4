using CsCheck;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class LevelLineTests
{
    private static readonly PlanGrid Grid = PlanGrid.Covering(new(-5, -5), new(5, 5), 0.1);

    // A cone: its level is a circle. Linear interpolation of a cone along an edge errs by the square of the spacing over the radius.
    [Fact]
    public void The_level_of_a_cone_is_one_closed_circle()
    {
        LevelLine line = Assert.Single(LevelLine.Trace(Grid, Values(p => 4 - p.DistanceTo(new(0.3, -0.2))), 1));

        Assert.True(line.Closed);
        Assert.Equal(line.Points[0], line.Points[^1]);
        Assert.All(line.Points, point => Assert.Equal(3, point.DistanceTo(new(0.3, -0.2)), tolerance: 0.1 * 0.1 / 8 / 3 * 1.1));

        // Higher on the left: round a hill counter-clockwise.
        Assert.Equal(Math.PI * 9, Lawn.SignedArea([.. line.Points.Skip(1)]), tolerance: 0.03);
    }

    [Fact]
    public void A_slope_s_level_is_one_open_line_across()
    {
        LevelLine line = Assert.Single(LevelLine.Trace(Grid, Values(p => p.EastMetres + (2 * p.NorthMetres)), 0.37));

        Assert.False(line.Closed);
        Assert.All(line.Points, point => Assert.Equal(0.37, point.EastMetres + (2 * point.NorthMetres), tolerance: 1e-12));
    }

    [Fact]
    public void Nothing_is_found_where_the_level_is_not_met()
    {
        Assert.Empty(LevelLine.Trace(Grid, Values(_ => 1), 2));
        Assert.Empty(LevelLine.Trace(Grid, Values(_ => 2), 1));
    }

    // Whatever the values: lines end only at the grid's edge, and every point lies between a value at or above the level and one below.
    [Fact]
    public void Lines_of_any_values_close_or_end_at_the_edge() =>
        Gen.Double[0, 1].Array[36].Sample(values =>
        {
            PlanGrid grid = new(new(0, 0), 1, 6, 6);
            IReadOnlyList<LevelLine> lines = LevelLine.Trace(grid, values, 0.5);
            int crossed = Enumerable.Range(0, 36).Sum(i =>
                (i % 6 < 5 && values[i] >= 0.5 != values[i + 1] >= 0.5 ? 1 : 0) + (i < 30 && values[i] >= 0.5 != values[i + 6] >= 0.5 ? 1 : 0));
            Assert.Equal(crossed, lines.Sum(line => line.Points.Count - (line.Closed ? 1 : 0)));
            Assert.All(lines.Where(line => !line.Closed), line => Assert.All(new[] { line.Points[0], line.Points[^1] }, end =>
                Assert.True(end.EastMetres is 0 or 5 || end.NorthMetres is 0 or 5)));
        });

    private static double[] Values(Func<PlanPoint, double> of) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => of(Grid[i % Grid.Columns, i / Grid.Columns]))];
}
