using System.Numerics;
using CsCheck;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class FieldSourceTests
{
    private const double Plane = 0.07;

    private static readonly Gen<Vec3> Buried = Gen.Select(Gen.Double[-20, 20], Gen.Double[-20, 20], Gen.Int[1, 3]).Select((x, y, z) => new Vec3(x, y, -0.05 * z));
    private static readonly Gen<Complex> Currents = Gen.Select(Gen.Double[-2, 2], Gen.Double[-2, 2]).Select((re, im) => new Complex(re, im));
    private static readonly Gen<CurrentSegment> Pieces = Gen.Select(Buried, Buried, Currents).Select((a, b, i) => new CurrentSegment(a, b with { Z = a.Z }, i));
    private static readonly Gen<PlanPoint> Places = Gen.Select(Gen.Double[-25, 25], Gen.Double[-25, 25]).Select((x, y) => new PlanPoint(x, y));

    // Superposition against the single pieces; a few roundings of the largest terms (2 A at 0.12 m: 2 A/m).
    [Fact]
    public void The_field_is_the_sum_over_pieces_times_their_currents() =>
        Gen.Select(Pieces.Array[0, 12], Places).Sample((pieces, place) =>
        {
            Complex sum = pieces.Aggregate(Complex.Zero, (sum, piece) => sum + (piece.CurrentAmperes
                * SegmentField.FieldPerAmpere(piece.StartMetres, piece.EndMetres, new(place.EastMetres, place.NorthMetres, Plane))!.Value.Z));
            Complex got = new FieldSource(pieces, Plane).VerticalFieldAmperesPerMetre(place);
            Assert.True((got - sum).Magnitude < 1e-12, $"{got} against {sum}");
        });

    [Fact]
    public void A_row_holds_each_place_s_own_field() =>
        Gen.Select(Pieces.Array[1, 6], Places.Array[1, 19]).Sample((pieces, places) =>
        {
            FieldSource source = new(pieces, Plane);
            double[] east = [.. places.Select(p => p.EastMetres)], inPhase = new double[east.Length], quadrature = new double[east.Length];
            source.FillRow(places[0].NorthMetres, east, inPhase, quadrature);
            for (int i = 0; i < east.Length; i++)
            {
                Complex alone = source.VerticalFieldAmperesPerMetre(new(east[i], places[0].NorthMetres));
                Assert.Equal(alone.Real, inPhase[i], tolerance: 1e-14);
                Assert.Equal(alone.Imaginary, quadrature[i], tolerance: 1e-14);
            }
        });

    [Fact]
    public void A_chain_with_one_current_is_the_wire_itself()
    {
        PlanPoint[] corners = [new(0, 0), new(6, 0), new(6, 8), new(0, 8), new(0, 0)];
        CurrentSegment[] pieces = [.. corners.Zip(corners.Skip(1), (a, b) => new CurrentSegment(new(a.EastMetres, a.NorthMetres, -0.05), new(b.EastMetres, b.NorthMetres, -0.05), 0.02))];
        Complex field = new FieldSource(pieces, Plane).VerticalFieldAmperesPerMetre(new(3, 4));

        Assert.Equal(new Complex(0.02 * new PolylineField(new(corners), 0.12).VerticalFieldPerAmpere(new(3, 4)), 0), field);
    }

    [Fact]
    public void An_upright_piece_adds_nothing() =>
        Assert.Equal(Complex.Zero, new FieldSource([new(new(1, 1, -0.5), new(1, 1, 2), 3)], Plane).VerticalFieldAmperesPerMetre(new(1.2, 1)));

    [Fact]
    public void A_sloping_piece_and_one_in_the_plane_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new FieldSource([new(new(0, 0, 0), new(1, 0, 1), 1)], 5));
        Assert.Throws<ArgumentException>(() => new FieldSource([new(new(0, 0, 5), new(1, 0, 5), 1)], 5));
    }

    [Fact]
    public void A_current_that_is_not_finite_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new FieldSource([new(new(0, 0, 0), new(1, 0, 0), new Complex(1, double.NaN))], 5));
}
