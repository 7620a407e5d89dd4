using CsCheck;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class PolylineFieldTests
{
    private static readonly Gen<PlanPoint> Places = Gen.Select(Gen.Double[-60, 60], Gen.Double[-60, 60]).Select((x, y) => new PlanPoint(x, y));
    private static readonly Gen<PlanPoint[]> Wires = Places.Array[2, 40];
    private static readonly Gen<double> Heights = Gen.Double[0.05, 0.4];

    // The kernel against the sum of single pieces, which is tested against published values. Tolerance: 1e-6 is promised at 5 cm; two orders of the
    // same sum of up to forty terms differ by roundings of the largest term, and by the coordinates' rounding over the distance.
    [Fact]
    public void The_kernel_equals_the_sum_of_its_pieces() =>
        Gen.Select(Wires, Heights, Places).Sample((wire, height, place) =>
        {
            double sum = 0, largest = 0;
            for (int i = 0; i + 1 < wire.Length; i++)
            {
                double term = SegmentField.FieldPerAmpere(Level(wire[i]), Level(wire[i + 1]), new(place.EastMetres, place.NorthMetres, height))!.Value.Z;
                sum += term;
                largest = Math.Max(largest, Math.Abs(term));
            }

            Assert.Equal(sum, new PolylineField(new(wire), height).VerticalFieldPerAmpere(place), tolerance: 1e-12 * largest);
        });

    // Every width is the same arithmetic, so the same bits: what a browser, a phone and a server answer is one answer.
    [Fact]
    public void Every_vector_width_gives_the_same_bits() =>
        Gen.Select(Wires, Heights, Places.Array[1, 33]).Sample((wire, height, places) =>
        {
            double[] cornersEast = [.. wire.Select(p => p.EastMetres)], cornersNorth = [.. wire.Select(p => p.NorthMetres)];
            double[] east = [.. places.Select(p => p.EastMetres)], one = new double[east.Length], portable = new double[east.Length], wide = new double[east.Length];
            RowKernel.Fill<OneLane>(cornersEast, cornersNorth, height * height, places[0].NorthMetres, east, one);
            RowKernel.Fill<PortableLanes>(cornersEast, cornersNorth, height * height, places[0].NorthMetres, east, portable);
            RowKernel.Fill<WideLanes>(cornersEast, cornersNorth, height * height, places[0].NorthMetres, east, wide);
            Assert.Equal(one, portable);
            Assert.Equal(one, wide);
        }, iter: 300);

    // Long buried wire, 0.5 A, h = 0.25 m: |Bz| peaks at x = ±h with μ0 I/(4πh) = 200 nT (references B1, B2). Two kilometres instead of an endless
    // wire fall short by half the square of √2·h/1000: 1.3e-5 nT.
    [Fact]
    public void A_long_wire_peaks_at_a_height_beside_it_and_turns_over_above_it()
    {
        PolylineField wire = new(new([new(0, -1000), new(0, 1000)]), 0.25);
        double Nanotesla(double east) => 0.5e9 * PhysicalConstants.VacuumPermeability * wire.VerticalFieldPerAmpere(new(east, 0));

        Assert.Equal(-200, Nanotesla(0.25), tolerance: 2e-5);
        Assert.Equal(200, Nanotesla(-0.25), tolerance: 2e-5);
        Assert.Equal(0, Nanotesla(0));
        Assert.True(Math.Abs(Nanotesla(0.24)) < 200 && Math.Abs(Nanotesla(0.26)) < 200);
    }

    // Go-and-return pair, 20 mm apart, 1 m away in its plane: 4.00040004 nT (references B2, tolerance 1e-6; the height of 0.1 mm that this class
    // needs moves the sixth figure by 1e-8). It falls as the square of the distance: the pair is silent while a single wire is not.
    [Fact]
    public void A_go_and_return_pair_falls_silent()
    {
        PolylineField pair = new(new([new(0.01, -2000), new(0.01, 2000), new(-0.01, 2000), new(-0.01, -2000)]), 1e-4);
        PolylineField single = new(new([new(0, -2000), new(0, 2000)]), 1e-4);

        double near = Math.Abs(pair.VerticalFieldPerAmpere(new(1, 0))), far = Math.Abs(pair.VerticalFieldPerAmpere(new(4, 0)));
        Assert.Equal(4.00040004e-9, PhysicalConstants.VacuumPermeability * near, tolerance: 1e-6 * 4e-9);
        Assert.InRange(near / far, 15.9, 16.1);
        Assert.InRange(near / Math.Abs(single.VerticalFieldPerAmpere(new(1, 0))), 0.019, 0.021);
    }

    // One trench, out and back: nothing of the pair is left, whatever it runs beside. The two currents meet the same roundings.
    [Fact]
    public void A_run_out_and_back_along_the_same_way_leaves_no_field() =>
        Gen.Select(Wires, Heights, Places).Sample((wire, height, place) =>
        {
            double oneWay = Math.Abs(new PolylineField(new(wire), height).VerticalFieldPerAmpere(place));
            double both = new PolylineField(new([.. wire, .. wire.Reverse()]), height).VerticalFieldPerAmpere(place);
            Assert.Equal(0, both, tolerance: 1e-12 * Math.Max(oneWay, 1));
        });

    [Fact]
    public void A_counter_clockwise_loop_is_positive_inside_and_negative_outside()
    {
        PlanPoint[] corners = [new(0, 0), new(9, 0), new(9, 6), new(0, 6), new(0, 0)];
        PolylineField loop = new(new(corners), 0.12), other = new(new(corners.Reverse()), 0.12);

        Assert.True(loop.VerticalFieldPerAmpere(new(4, 3)) > 0);
        Assert.True(loop.VerticalFieldPerAmpere(new(11, 3)) < 0);
        Assert.True(other.VerticalFieldPerAmpere(new(4, 3)) < 0);
    }

    // Pieces of no length, and cutting a piece in two, are the same wire.
    [Fact]
    public void Repeated_and_extra_corners_change_nothing() =>
        Gen.Select(Wires, Heights, Places, Gen.Int[0, 38], Gen.Double[0, 1]).Sample((wire, height, place, at, share) =>
        {
            at %= wire.Length - 1;
            List<PlanPoint> more = [.. wire];
            more.Insert(at + 1, wire[at].Towards(wire[at + 1], share));
            more.Insert(at + 1, wire[at]);
            double plain = new PolylineField(new(wire), height).VerticalFieldPerAmpere(place);
            Assert.Equal(plain, new PolylineField(new(more), height).VerticalFieldPerAmpere(place), tolerance: 1e-11 * Math.Max(1, Math.Abs(plain)));
        });

    // A point in the vertical plane of a piece, above it, above its ends, beyond them: all regular, all equal to the stable single-piece form.
    [Theory]
    [InlineData(-40)]
    [InlineData(0)]
    [InlineData(1e-9)]
    [InlineData(150)]
    [InlineData(300)]
    [InlineData(340)]
    public void Beside_and_beyond_a_long_piece_no_digits_are_lost(double east)
    {
        const double Off = 0.05, Height = 0.05;
        double expected = SegmentField.FieldPerAmpere(Vec3.Zero, new(300, 0, 0), new(east, Off, Height))!.Value.Z;
        Assert.Equal(expected, new PolylineField(new([new(0, 0), new(300, 0)]), Height).VerticalFieldPerAmpere(new(east, Off)), tolerance: 1e-14 * Math.Abs(expected));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_height_not_above_zero_is_refused(double height) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PolylineField(new([new(0, 0), new(1, 0)]), height));

    [Fact]
    public void A_place_that_is_not_finite_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new PolylineField(new([new(0, 0), new(1, 0)]), 1).VerticalFieldPerAmpere(new(0, double.NaN)));

    private static Vec3 Level(PlanPoint p) => new(p.EastMetres, p.NorthMetres, 0);
}
