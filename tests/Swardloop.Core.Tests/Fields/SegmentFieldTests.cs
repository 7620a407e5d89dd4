using CsCheck;
using Swardloop.Core.Fields;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

public sealed class SegmentFieldTests
{
    private static readonly Gen<Vec3> Points = Gen.Select(Gen.Double[-50, 50], Gen.Double[-50, 50], Gen.Double[-5, 5]).Select((x, y, z) => new Vec3(x, y, z));

    // Straight segment from z = 0 to 1, field in μ0 I/(4πL): Schilling et al., Computer Physics Communications 2023, 108692, test data.
    // Tolerance: the references ask for 1e-10 and give 17 figures, so a few roundings are all that is granted; the last two rows are those
    // where the subtractive textbook form loses its digits.
    [Theory]
    [InlineData(0.1, 0.5, 19.611613513818402)]
    [InlineData(1, 0.5, 0.89442719099991588)]
    [InlineData(0.1, 0, 9.9503719020998908)]
    [InlineData(0.01, 0.1, 199.49754675299315)]
    [InlineData(0.01, 0.99, 170.70557698875119)]
    [InlineData(0.01, -1, 0.0037496484682589954)]
    [InlineData(0.01, -10, 8.6776740634314097e-6)]
    public void Published_segment_values_are_met(double rho, double z, double expected)
    {
        Vec3 field = SegmentField.FieldPerAmpere(Vec3.Zero, new(0, 0, 1), new(rho, 0, z))!.Value;

        Assert.Equal(expected, 4 * Math.PI * field.Y, tolerance: 1e-13 * expected);
        Assert.Equal(0, field.X);
        Assert.Equal(0, field.Z);
    }

    // References B2, computed two ways there; printed to 12 figures, tolerance 1e-9 as stated there.
    [Fact]
    public void Ten_metres_of_wire_give_the_textbook_field_a_metre_from_the_middle() =>
        Assert.Equal(196.116135138e-9, Tesla(new(-5, 0, 0), new(5, 0, 0), new(0, 1, 0)).Z, tolerance: 1e-9 * 196e-9);

    // Infinite wire, 1 m: 200 nT (Ampère's law). Two kilometres of wire fall short by half the square of 1/1000, which is the tolerance.
    [Fact]
    public void A_very_long_wire_gives_two_hundred_nanotesla_at_one_metre() =>
        Assert.Equal(200e-9, Tesla(new(-1000, 0, 0), new(1000, 0, 0), new(0, 1, 0)).Z, tolerance: 0.51e-6 * 200e-9);

    // Square of 10 m and rectangle of 30 × 20 m at the centre: closed forms and values of references B1 and B2, tolerance 1e-9.
    [Theory]
    [InlineData(10, 10, 113.13708499)]
    [InlineData(30, 20, 48.0740170062)]
    public void The_centre_of_a_rectangle_has_the_closed_form(double a, double b, double nanotesla)
    {
        double field = RectangleTesla(a, b, new(a / 2, b / 2, 0)).Z;

        Assert.Equal(nanotesla * 1e-9, field, tolerance: 1e-9 * nanotesla * 1e-9);
        Assert.Equal(2 * PhysicalConstants.VacuumPermeability * Math.Sqrt((a * a) + (b * b)) / (Math.PI * a * b), field, tolerance: 1e-13 * field);
    }

    // Rectangle (0,0)–(30,20), references B2: printed to 10 figures, tolerance 1e-6 as stated there.
    [Theory]
    [InlineData(5, 3, 0, null, null, 100.4061137)]
    [InlineData(15, 10, 0.3, null, null, 48.03152563)]
    [InlineData(15, 1, 0.15, null, -29.22192321, 213.02877)]
    [InlineData(15, -1, 0.15, null, -29.23387567, -179.6591365)]
    [InlineData(15, 0, 0.2, null, -999.8511309, 16.66363754)]
    [InlineData(0.5, 0.5, 0.15, -93.09238733, -93.07936403, 627.0540524)]
    public void A_rectangle_has_the_worked_values(double x, double y, double z, double? bx, double? by, double bz)
    {
        Vec3 field = RectangleTesla(30, 20, new(x, y, z));

        foreach ((double? expected, double got) in new[] { (bx, field.X), (by, field.Y), (bz, field.Z) })
        {
            if (expected is { } nanotesla)
            {
                Assert.Equal(nanotesla, 1e9 * got, tolerance: 1e-6 * Math.Abs(nanotesla));
            }
        }
    }

    // Axis of a square, side a: textbook closed form, references B1. A few roundings.
    [Theory]
    [InlineData(10, 0.12)]
    [InlineData(10, 7)]
    [InlineData(0.3, 5)]
    public void The_axis_of_a_square_has_the_closed_form(double a, double z)
    {
        double quarter = (z * z) + (a * a / 4), half = (z * z) + (a * a / 2);
        double expected = PhysicalConstants.VacuumPermeability * a * a / (2 * Math.PI * quarter * Math.Sqrt(half));

        Assert.Equal(expected, RectangleTesla(a, a, new(a / 2, a / 2, z)).Z, tolerance: 1e-13 * expected);
    }

    // Second route: the Biot–Savart integral by Gauss–Legendre on each of many short stretches. Tolerance: 8 points on stretches shorter than the
    // distance err by less than 1e-12.
    [Fact]
    public void Quadrature_of_the_integral_agrees() =>
        Gen.Select(Points, Points, Points).Where((a, b, p) => Distance(a, b, p) > 0.5).Sample((a, b, p) =>
        {
            Vec3 closed = SegmentField.FieldPerAmpere(a, b, p)!.Value, summed = Quadrature(a, b, p);
            Assert.True((closed - summed).Length <= 1e-11 * Math.Max(closed.Length, 1e-3), $"{closed} against {summed}");
        }, iter: 200);

    // Rounding the coordinates costs 1e-16 · (1 + L/d), stated with the formula: 1.4e-13 for 140 m at a decimetre, of which a few are granted.
    [Fact]
    public void Reversing_a_piece_reverses_its_field() =>
        Gen.Select(Points, Points, Points).Where((a, b, p) => Distance(a, b, p) > 0.1).Sample((a, b, p) =>
            Near(SegmentField.FieldPerAmpere(a, b, p)!.Value, -SegmentField.FieldPerAmpere(b, a, p)!.Value, 1e-12));

    // Twice a number is exact: the same bits, and no value on the piece either way. Not where squares of lengths leave the range of numbers.
    [Fact]
    public void Doubling_every_length_halves_the_field() =>
        Gen.Select(Points, Points, Points).Where((a, b, p) => Distance(a, b, p) is 0 or > 1e-30).Sample((a, b, p) =>
            SegmentField.FieldPerAmpere(2 * a, 2 * b, 2 * p) == 0.5 * SegmentField.FieldPerAmpere(a, b, p));

    // Moving everything rounds the coordinates: 1e-16 of 100 m against distances of a decimetre and more.
    [Fact]
    public void Moving_and_turning_everything_moves_and_turns_the_field() =>
        Gen.Select(Points, Points, Points, Points, Gen.Double[0, 6.28]).Where((a, b, p, _, _) => Distance(a, b, p) > 0.1).Sample((a, b, p, shift, angle) =>
        {
            Vec3 Turn(Vec3 v) => new((Math.Cos(angle) * v.X) - (Math.Sin(angle) * v.Y), (Math.Sin(angle) * v.X) + (Math.Cos(angle) * v.Y), v.Z);
            Vec3 Move(Vec3 v) => Turn(v) + shift;
            return Near(Turn(SegmentField.FieldPerAmpere(a, b, p)!.Value), SegmentField.FieldPerAmpere(Move(a), Move(b), Move(p))!.Value, 1e-11);
        });

    [Fact]
    public void Splitting_a_piece_changes_nothing() =>
        Gen.Select(Points, Points, Points, Gen.Double[0.01, 0.99]).Where((a, b, p, _) => Distance(a, b, p) > 0.1).Sample((a, b, p, share) =>
        {
            Vec3 middle = a + (share * (b - a));
            return Near(SegmentField.FieldPerAmpere(a, b, p)!.Value, SegmentField.FieldPerAmpere(a, middle, p)!.Value + SegmentField.FieldPerAmpere(middle, b, p)!.Value, 1e-10);
        });

    [Fact]
    public void On_the_piece_there_is_no_value()
    {
        Vec3 a = new(1, 2, 3), b = new(4, 6, 3);
        Assert.Null(SegmentField.FieldPerAmpere(a, b, a));
        Assert.Null(SegmentField.FieldPerAmpere(a, b, b));
        Assert.Null(SegmentField.FieldPerAmpere(a, b, 0.5 * (a + b)));
        Assert.Null(SegmentField.FluxDensityTesla(a, b, 2, 0.5 * (a + b)));
    }

    [Fact]
    public void In_line_beyond_the_ends_the_field_is_zero()
    {
        Assert.Equal(Vec3.Zero, SegmentField.FieldPerAmpere(Vec3.Zero, new(3, 0, 0), new(5, 0, 0)));
        Assert.Equal(Vec3.Zero, SegmentField.FieldPerAmpere(Vec3.Zero, new(3, 0, 0), new(-1e-9, 0, 0)));
    }

    [Fact]
    public void A_piece_of_no_length_has_no_field() =>
        Assert.Equal(Vec3.Zero, SegmentField.FieldPerAmpere(new(1, 1, 1), new(1, 1, 1), new(2, 0, 0)));

    // A metre of air away from a kilometre of wire, then a micrometre: the long-wire law with the ends' shortfall. Where the plain form
    // d1 d2 + r1·r2 has lost all but four digits (measured by its authors: 5e-5 at a millionth of the length) this one loses none.
    [Theory]
    [InlineData(1)]
    [InlineData(1e-3)]
    [InlineData(1e-6)]
    public void Close_to_a_long_wire_no_digits_are_lost(double distance)
    {
        double expected = 500 / Math.Sqrt(250_000 + (distance * distance)) / (2 * Math.PI * distance);
        Assert.Equal(expected, SegmentField.FieldPerAmpere(new(-500, 0, 0), new(500, 0, 0), new(0, distance, 0))!.Value.Z, tolerance: 1e-14 * expected);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void What_is_not_finite_is_refused(double bad)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SegmentField.FieldPerAmpere(new(bad, 0, 0), Vec3.Zero, new(1, 1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => SegmentField.FieldPerAmpere(new(1, 0, 0), new(0, bad, 0), new(1, 1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => SegmentField.FieldPerAmpere(new(1, 0, 0), Vec3.Zero, new(1, 1, bad)));
        Assert.Throws<ArgumentOutOfRangeException>(() => SegmentField.FluxDensityTesla(new(1, 0, 0), Vec3.Zero, bad, new(1, 1, 1)));
    }

    private static Vec3 Tesla(Vec3 a, Vec3 b, Vec3 p) => SegmentField.FluxDensityTesla(a, b, 1, p)!.Value;

    private static Vec3 RectangleTesla(double a, double b, Vec3 p)
    {
        Vec3[] corners = [Vec3.Zero, new(a, 0, 0), new(a, b, 0), new(0, b, 0)];
        return Enumerable.Range(0, 4).Aggregate(Vec3.Zero, (sum, i) => sum + Tesla(corners[i], corners[(i + 1) % 4], p));
    }

    private static double Distance(Vec3 a, Vec3 b, Vec3 p)
    {
        Vec3 along = b - a;
        double share = Math.Clamp(Vec3.Dot(p - a, along) / Vec3.Dot(along, along), 0, 1);
        return (p - a - (share * along)).Length;
    }

    // In line with a piece the field is nothing but rounding: below a thousandth per metre the tolerance stays where it is.
    private static bool Near(Vec3 a, Vec3 b, double relative) => (a - b).Length <= relative * Math.Max(a.Length, 1e-3);

    private static Vec3 Quadrature(Vec3 a, Vec3 b, Vec3 p)
    {
        double[] nodes = [0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363];
        double[] weights = [0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763];
        Vec3 sum = Vec3.Zero, along = b - a;
        int stretches = 1 + (int)(4 * along.Length / Distance(a, b, p));
        for (int i = 0; i < stretches; i++)
        {
            for (int k = 0; k < 8; k++)
            {
                double share = (i + 0.5 + ((k < 4 ? nodes[k] : -nodes[k - 4]) / 2)) / stretches;
                Vec3 r = p - (a + (share * along));
                sum += weights[k % 4] / (2 * stretches * r.Length * r.Length * r.Length) * Vec3.Cross(along, r);
            }
        }

        return 1 / (4 * Math.PI) * sum;
    }
}
