using CsCheck;
using Swardloop.Core.Budget;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Budget;

public sealed class InductanceTests
{
    private static readonly Gen<PlanPoint> Places =
        Gen.Select(Gen.Double[-30, 30], Gen.Double[-30, 30], (east, north) => new PlanPoint(east, north));

    /// <summary>Corners as people draw them, to the centimetre.</summary>
    private static readonly Gen<PlanPoint> Corners =
        Gen.Select(Gen.Int[-3000, 3000], Gen.Int[-3000, 3000], (east, north) => new PlanPoint(east / 100.0, north / 100.0));

    /// <summary>Filaments of a centimetre and more.</summary>
    private static readonly Gen<(PlanPoint From, PlanPoint To)> Filaments =
        Gen.Select(Places, Places).Where(ends => ends.Item1.DistanceTo(ends.Item2) > 0.01);

    // Rosa 1908, worked value of a program quoting him: l = 2 mm, d = 1 mm gives 0.625574 nH. Tolerance 1e-6: the printed digits.
    [Fact]
    public void Short_wire_matches_Rosa() =>
        Assert.Equal(0.625574e-9, Inductance.OfStraightWireHenry(0.002, 0.0005), 1e-6 * 0.625574e-9);

    // 2·10⁻⁷ l [ln(2l/r) − 3/4]: Rosa 1908, Grover 1946 chapter 5. Tolerance 1e-3 as the reference asks; met to 1e-5 at 10 m.
    [Fact]
    public void Long_wire_matches_the_short_form() =>
        Assert.Equal(2e-7 * 10 * (Math.Log(2 * 10 / 0.0006) - 0.75), Inductance.OfStraightWireHenry(10, 0.0006), 1e-5 * 2e-5);

    // Grover 1946, chapter 7; computed by scipy quadrature: 1.0986122887 µH for 10 m and 10 m meeting at 60°. Tolerance 1e-9.
    [Fact]
    public void Filaments_meeting_at_60_degrees_match_Grover()
    {
        PlanPoint corner = new(0, 0);
        double? mutual = Inductance.MutualHenry(corner, new(10, 0), corner, new(5, 5 * Math.Sqrt(3)));
        Assert.Equal(1.0986122887e-6, mutual!.Value, 1e-9 * 1.1e-6);
    }

    // Grover 1946, chapter 7, closed form for two meeting filaments of lengths l, m, end gap R. Tolerance 1e-12: rounding.
    [Theory]
    [InlineData(10, 4, 0.3)]
    [InlineData(3, 50, 1.2)]
    [InlineData(7, 7, 2.9)]
    public void Filaments_meeting_at_any_angle_match_Grover(double l, double m, double angle)
    {
        double gap = Math.Sqrt((l * l) + (m * m) - (2 * l * m * Math.Cos(angle)));
        double expected = 2e-7 * Math.Cos(angle) * ((l * Math.Atanh(m / (l + gap))) + (m * Math.Atanh(l / (m + gap))));
        double? mutual = Inductance.MutualHenry(new(0, 0), new(l, 0), new(0, 0), new(m * Math.Cos(angle), m * Math.Sin(angle)));
        Assert.Equal(expected, mutual!.Value, 1e-12 * Math.Abs(expected));
    }

    // Second route: Neumann's double integral, tanh-sinh over one filament of the closed inner integral asinh. Tolerance 1e-7, of
    // the integral without its cosine: the far form's stated error.
    [Fact]
    public void Mutual_matches_numeric_quadrature() =>
        Gen.Select(Filaments, Filaments, Gen.OneOf(Gen.Const(0.0), Gen.Double[0.01, 3])).Sample((one, other, height) =>
        {
            (PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) = (one.From, one.To, other.From, other.To);
            double cosine = (((b.EastMetres - a.EastMetres) * (d.EastMetres - c.EastMetres))
                + ((b.NorthMetres - a.NorthMetres) * (d.NorthMetres - c.NorthMetres))) / (a.DistanceTo(b) * c.DistanceTo(d));
            if (1 - (cosine * cosine) < 1e-8)
            {
                return; // nearly parallel: taken as parallel, has a test of its own
            }

            double mutual = Inductance.MutualHenry(a, b, c, d, height)!.Value, integral = NeumannByQuadrature(a, b, c, d, height);
            Assert.Equal(1e-7 * cosine * integral, mutual, 1e-7 * 1e-7 * integral);
        }, iter: 2000);

    [Fact]
    public void Mutual_is_the_same_seen_from_either_filament() =>
        Gen.Select(Filaments, Filaments).Sample((one, other) =>
        {
            // A tenth of a metre of height, so that none lies on the other. Tolerance: the stated error, and rounding.
            double mutual = Inductance.MutualHenry(one.From, one.To, other.From, other.To, 0.1)!.Value;
            double error = NearlyParallel(one.From, one.To, other.From, other.To) ? 2e-5 : 1e-7;
            Assert.Equal(mutual, Inductance.MutualHenry(other.From, other.To, one.From, one.To, 0.1)!.Value, (error * Math.Abs(mutual)) + 1e-16);
            Assert.Equal(-mutual, Inductance.MutualHenry(one.To, one.From, other.From, other.To, 0.1)!.Value, 1e-16);
        });

    [Fact]
    public void Mutual_is_continuous_where_lines_become_parallel()
    {
        // The branch changes at a sine of 1e-5; on both sides the value is within that of the parallel one.
        double parallel = Mutual(0);
        foreach (double sine in new[] { 1e-9, 0.99e-5, 1.01e-5, 1e-4 })
        {
            Assert.Equal(parallel, Mutual(sine), 2 * sine * parallel + 1e-9 * parallel);
        }

        static double Mutual(double sine) => Inductance.MutualHenry(
            new(0, 0), new(20, 0), new(1, 5 - (10 * sine)), new(21, 5 + (10 * sine)))!.Value;
    }

    [Fact]
    public void Filaments_on_one_another_have_no_mutual_inductance_but_beside_one_another_they_have()
    {
        Assert.Null(Inductance.MutualHenry(new(0, 0), new(10, 0), new(12, 0), new(2, 0)));
        Assert.NotNull(Inductance.MutualHenry(new(0, 0), new(10, 0), new(12, 0), new(2, 0), heightMetres: 0.003));
        Assert.NotNull(Inductance.MutualHenry(new(0, 0), new(10, 0), new(10, 0), new(12, 0)));
        Assert.Equal(0, Inductance.MutualHenry(new(0, 0), new(10, 0), new(3, 3), new(3, 3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.MutualHenry(new(0, 0), new(double.NaN, 0), new(10, 0), new(12, 0)));
    }

    // Computed by two routes in the references (closed form and Neumann sum by quadrature), r 0.6 mm, even current.
    // Tolerance: 1e-9, the digits printed there. Here and below the spacing of doubled wires is made so small that its step in
    // height between opposite sides, ½ (spacing/distance)², does not show.
    [Theory]
    [InlineData(10, 10, 73.57722521)]
    [InlineData(30, 20, 201.5208791)]
    public void Rectangle_matches_worked_value(double east, double north, double microhenry) =>
        Assert.Equal(microhenry * 1e-6, Inductance.OfLoopHenry(Rectangle(east, north), 0.0006, spacingMetres: 1e-7), 1e-9 * microhenry * 1e-6);

    // Rosa and Grover, NBS Scientific Paper 169; Grover 1946 chapter 8. Tolerance 1e-12: same closed form, other order of summing.
    [Theory]
    [InlineData(30, 20, Inductance.EvenCurrent)]
    [InlineData(1, 70, Inductance.SurfaceCurrent)]
    public void Rectangle_matches_Grover(double a, double b, double interior)
    {
        const double r = 0.0005;
        double expected = 4e-7 * ((a * Math.Log(2 * a / r)) + (b * Math.Log(2 * b / r)) + (2 * Math.Sqrt((a * a) + (b * b)))
            - (a * Math.Asinh(a / b)) - (b * Math.Asinh(b / a)) - (2 * (a + b)) + (interior * (a + b)));
        Assert.Equal(expected, Inductance.OfLoopHenry(Rectangle(a, b), r, interior, spacingMetres: 1e-7), 1e-12 * expected);
    }

    // Worked: 30 × 20 m in 1 mm² solid (r 0.564 mm): L 202.758 µH; with 1.81 Ω, τ 112.02 µs. Tolerance 1e-5: the printed digits.
    [Fact]
    public void Time_constant_matches_worked_value()
    {
        double inductance = Inductance.OfLoopHenry(Rectangle(30, 20), 0.000564);
        Assert.Equal(202.758e-6, inductance, 1e-5 * 202.758e-6);
        Assert.Equal(112.02e-6, inductance / 1.81, 1e-4 * 112.02e-6);
    }

    // 2·10⁻⁷ N s [ln(s/r) + c + Y]; c computed in the references (Grover chapter 8 prints them to 1e-4). Tolerance 1e-6 in c.
    [Theory]
    [InlineData(3, -1.405465)]
    [InlineData(4, -0.774013)]
    [InlineData(5, -0.409221)]
    [InlineData(6, -0.151519)]
    [InlineData(8, 0.211977)]
    [InlineData(12, 0.674151)]
    public void Regular_polygon_matches_Grover(int corners, double constant)
    {
        const double r = 0.0006;
        WirePath path = RegularPolygon(corners, 10);
        double side = path.LengthMetres / corners;
        double found = (Inductance.OfLoopHenry(path, r) / (2e-7 * path.LengthMetres)) - Math.Log(side / r) - Inductance.EvenCurrent;
        Assert.Equal(constant, found, 1e-6);
    }

    // Maxwell: μ0 R [ln(8R/r) − 2 + Y], R 10 m, r 0.6 mm: 126.2996592 µH. Tolerance: the polygon inside the circle is shorter and
    // its corners count, together about ln(N)/N² with a factor near 1.
    [Theory]
    [InlineData(50)]
    [InlineData(100)]
    [InlineData(400)]
    public void Polygon_of_many_sides_matches_the_circle(int sides) =>
        Assert.Equal(126.2996592e-6, Inductance.OfLoopHenry(RegularPolygon(sides, 10), 0.0006), 126.2996592e-6 * Math.Log(sides) / (sides * sides));

    // Maxwell 701: coaxial circles A = 25, a = 20, d = 10 cm: 248.787359 nH; a = A = 25, d = 5 cm: 538.464002 nH. Here as
    // polygons of 400 sides with the same area each. Tolerance 1e-4: what the polygon's shape still changes.
    [Theory]
    [InlineData(0.25, 0.20, 0.10, 248.787359)]
    [InlineData(0.25, 0.25, 0.05, 538.464002)]
    public void Coaxial_circles_match_Maxwell(double outer, double inner, double distance, double nanohenry)
    {
        const int Sides = 400;
        double equalArea = Math.Sqrt(2 * Math.PI / Sides / Math.Sin(2 * Math.PI / Sides));
        IReadOnlyList<PlanPoint> a = RegularPolygon(Sides, outer * equalArea).Points, b = RegularPolygon(Sides, inner * equalArea).Points;
        double sum = 0;
        for (int i = 0; i < Sides; i++)
        {
            for (int j = 0; j < Sides; j++)
            {
                sum += Inductance.MutualHenry(a[i], a[i + 1], b[j], b[j + 1], distance)!.Value;
            }
        }

        Assert.Equal(nanohenry * 1e-9, sum, 1e-4 * nanohenry * 1e-9);
    }

    [Fact]
    public void Corners_added_on_straight_pieces_change_nothing() =>
        Gen.Select(Gen.Double[5, 40], Gen.Double[5, 40], Gen.Double[0.02, 0.98].Array[1, 12]).Sample((east, north, shares) =>
        {
            WirePath plain = Rectangle(east, north);
            IEnumerable<PlanPoint> cut = plain.Points.Skip(1).Zip(plain.Points, (to, from) => (from, to))
                .SelectMany(side => shares.Order().Select(share => side.from.Towards(side.to, share)).Prepend(side.from))
                .Append(plain.Points[^1]);
            double whole = Inductance.OfLoopHenry(plain, 0.0005);
            // Spacing steps pieces that do not follow each other: 3 mm against pieces of decimetres; and the far form's 1e-7.
            Assert.Equal(whole, Inductance.OfLoopHenry(new(cut), 0.0005), 1e-4 * whole);
        }, iter: 200);

    [Fact]
    public void Turning_shifting_and_reversing_a_loop_change_nothing() =>
        Gen.Select(Corners.Array[3, 12].Where(all => new WirePath(all).LengthMetres > 1), Places, Gen.Double[0, 6.28]).Sample((corners, shift, angle) =>
        {
            WirePath path = new(corners);
            double own = Inductance.OfLoopHenry(path, 0.0005);
            bool parallel = corners.Zip(corners.Skip(1).Append(corners[0])).SelectMany((one, i) =>
                corners.Zip(corners.Skip(1).Append(corners[0])).Skip(i + 1).Select(other => NearlyParallel(one.First, one.Second, other.First, other.Second))).Any(near => near);
            double tolerance = (parallel ? 1e-4 : 1e-7) * own;
            WirePath moved = new(corners.Select(p => new PlanPoint(
                (p.EastMetres * Math.Cos(angle)) - (p.NorthMetres * Math.Sin(angle)) + shift.EastMetres,
                (p.EastMetres * Math.Sin(angle)) + (p.NorthMetres * Math.Cos(angle)) + shift.NorthMetres)));
            Assert.Equal(own, Inductance.OfLoopHenry(moved, 0.0005), tolerance);
            Assert.Equal(own, Inductance.OfLoopHenry(path.Reversed(), 0.0005), tolerance);
        }, iter: 300);

    // Within a milliradian of parallel the stated error is larger; a piece without length is parallel to everything.
    private static bool NearlyParallel(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) =>
        !(Math.Abs(((b.EastMetres - a.EastMetres) * (d.NorthMetres - c.NorthMetres)) - ((b.NorthMetres - a.NorthMetres) * (d.EastMetres - c.EastMetres)))
            > 1e-3 * a.DistanceTo(b) * c.DistanceTo(d));

    // Go and return side by side, length l, spacing d ≪ l: 4·10⁻⁷ l [ln(d/r) + Y − d/l …], textbook (Grover chapter 5: parallel
    // pair, 0.004 l [ln(d/r) + 1/4 − d/l] µH, cm). Tolerance: the two ends, about 4·10⁻⁷ d ln(l/r), are left out.
    [Fact]
    public void Run_to_an_island_adds_the_inductance_of_a_pair()
    {
        const double r = 0.0005, spacing = 0.003, run = 15;
        double plain = Inductance.OfLoopHenry(Rectangle(40, 40), r, spacingMetres: spacing);
        double island = Inductance.OfLoopHenry(Rectangle(2, 2), r, spacingMetres: spacing);
        WirePath both = new(
        [
            new(0, 0), new(20, 0), new(20, run), new(21, run), new(21, run + 2), new(19, run + 2), new(19, run), new(20, run),
            new(20, 0), new(40, 0), new(40, 40), new(0, 40), new(0, 0),
        ]);
        double added = Inductance.OfLoopHenry(both, r, spacingMetres: spacing) - plain - island;

        // The island's own loop meets the big one's field: twice their mutual inductance, by the same Neumann sum.
        double meeting = LoopMutual(Rectangle(40, 40).Points, [new(20, run), new(21, run), new(21, run + 2), new(19, run + 2), new(19, run), new(20, run)]);
        double pair = 4e-7 * run * (Math.Log(spacing / r) + Inductance.EvenCurrent);
        Assert.Equal(pair, added - (2 * meeting), 0.002 * pair);
    }

    [Fact]
    public void Run_drawn_with_other_corners_on_its_way_back_stays_finite()
    {
        WirePath path = new(
        [
            new(0, 0), new(20, 0), new(20, 3), new(20, 8.5), new(20, 12), new(22, 12), new(22, 14), new(20, 14), new(20, 12),
            new(20, 5), new(20, 0), new(40, 0), new(40, 40), new(0, 40), new(0, 0),
        ]);
        WirePath simple = new(
        [
            new(0, 0), new(20, 0), new(20, 12), new(22, 12), new(22, 14), new(20, 14), new(20, 12),
            new(20, 0), new(40, 0), new(40, 40), new(0, 40), new(0, 0),
        ]);
        double expected = Inductance.OfLoopHenry(simple, 0.0005);
        Assert.Equal(expected, Inductance.OfLoopHenry(path, 0.0005), 1e-4 * expected);
    }

    [Fact]
    public void Spur_out_and_back_has_the_inductance_of_a_pair()
    {
        double henry = Inductance.OfLoopHenry(new WirePath([new(0, 0), new(30, 0), new(0, 0)]), 0.0005);
        Assert.Equal(4e-7 * 30 * (Math.Log(6) + 0.25), henry, 0.001 * henry);
    }

    [Fact]
    public void Open_ends_are_closed_straight() =>
        Assert.Equal(
            Inductance.OfLoopHenry(new([new(0, 0), new(30, 0), new(30, 20), new(0, 20), new(0, 0)]), 0.0005),
            Inductance.OfLoopHenry(new([new(0, 0), new(30, 0), new(30, 20), new(0, 20)]), 0.0005));

    [Fact]
    public void Impossible_arguments_are_refused()
    {
        WirePath path = Rectangle(10, 10);
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.OfLoopHenry(path, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.OfLoopHenry(path, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.OfLoopHenry(path, 0.0005, interior: 0.3));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.OfLoopHenry(path, 0.0005, spacingMetres: 0));
        Assert.Throws<ArgumentException>(() => Inductance.OfLoopHenry(new([new(1, 1), new(1, 1)]), 0.0005));
        Assert.Throws<ArgumentOutOfRangeException>(() => Inductance.OfStraightWireHenry(double.NaN, 0.0005));
    }

    // The same winding loop with every pair summed (900 pieces) and by chords (1,800: each piece halved, which changes nothing else).
    // Tolerance: the chords' stated error; far below what depth, spacing and drawing leave open.
    [Theory]
    [InlineData(0.0, 3)]
    [InlineData(2.0, 40)]
    [InlineData(6.0, 7)]
    public void Summing_by_chords_matches_every_pair(double swing, int waves)
    {
        PlanPoint[] corners = [.. Enumerable.Range(0, 900).Select(i =>
        {
            double angle = 2 * Math.PI * i / 900, radius = 20 + (swing * Math.Sin(waves * angle));
            return new PlanPoint(radius * Math.Cos(angle), radius * Math.Sin(angle));
        })];
        IEnumerable<PlanPoint> halved = corners.SelectMany((corner, i) => new[] { corner, corner.Towards(corners[(i + 1) % 900], 0.5) });
        double expected = Inductance.OfLoopHenry(new(corners), 0.0005, spacingMetres: 1e-5);
        Assert.Equal(expected, Inductance.OfLoopHenry(new(halved), 0.0005, spacingMetres: 1e-5), 5e-4 * expected);
    }

    private static WirePath Rectangle(double east, double north) =>
        new([new(0, 0), new(east, 0), new(east, north), new(0, north), new(0, 0)]);

    private static WirePath RegularPolygon(int corners, double radius) =>
        new(Enumerable.Range(0, corners + 1).Select(i => new PlanPoint(
            radius * Math.Cos(2 * Math.PI * (i % corners) / corners), radius * Math.Sin(2 * Math.PI * (i % corners) / corners))));

    private static double LoopMutual(IReadOnlyList<PlanPoint> a, IReadOnlyList<PlanPoint> b)
    {
        double sum = 0;
        for (int i = 0; i + 1 < a.Count; i++)
        {
            for (int j = 0; j + 1 < b.Count; j++)
            {
                sum += Inductance.MutualHenry(a[i], a[i + 1], b[j], b[j + 1])!.Value;
            }
        }

        return sum;
    }

    /// <summary>∬ ds dt / r: the inner integral as asinh differences, the outer by tanh-sinh, cut where the other line is nearest.</summary>
    private static double NeumannByQuadrature(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d, double height)
    {
        double lengthA = a.DistanceTo(b), lengthB = c.DistanceTo(d);
        double east = (d.EastMetres - c.EastMetres) / lengthB, north = (d.NorthMetres - c.NorthMetres) / lengthB;
        double Across(double s) => ((a.Towards(b, s).EastMetres - c.EastMetres) * north) - ((a.Towards(b, s).NorthMetres - c.NorthMetres) * east);
        double Along(double s) => ((a.Towards(b, s).EastMetres - c.EastMetres) * east) + ((a.Towards(b, s).NorthMetres - c.NorthMetres) * north);
        double Inner(double s)
        {
            double distance = Math.Max(Math.Sqrt((Across(s) * Across(s)) + (height * height)), 1e-300), along = Along(s);
            return Math.Asinh((lengthB - along) / distance) + Math.Asinh(along / distance);
        }

        List<double> cuts = [0, 1];
        foreach ((double from, double to) in new[] { (Across(0), Across(1)), (Along(0), Along(1)), (Along(0) - lengthB, Along(1) - lengthB) })
        {
            if (from != to && from / (from - to) is > 0 and < 1 and double cut)
            {
                cuts.Add(cut);
            }
        }

        cuts.Sort();
        double sum = 0;
        for (int i = 0; i + 1 < cuts.Count; i++)
        {
            double half = (cuts[i + 1] - cuts[i]) / 2, middle = (cuts[i + 1] + cuts[i]) / 2;
            for (int k = -160; k <= 160; k++)
            {
                double t = k * 0.02, u = Math.PI / 2 * Math.Sinh(t);
                double weight = 0.02 * Math.PI / 2 * Math.Cosh(t) / (Math.Cosh(u) * Math.Cosh(u));
                sum += weight * half * Inner(middle + (half * Math.Tanh(u)));
            }
        }

        return lengthA * sum;
    }
}
