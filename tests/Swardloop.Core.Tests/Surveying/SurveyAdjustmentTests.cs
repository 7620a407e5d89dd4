using Swardloop.Core.Geometry;
using Swardloop.Core.Surveying;

namespace Swardloop.Core.Tests.Surveying;

public sealed class SurveyAdjustmentTests
{
    private static readonly (string Name, PlanPoint Place)[] House = [("A", new(0, 0)), ("B", new(12, 0))];

    // Three stations and distances in feet, after Ghilani, Adjustment Computations, chapter 14: the inputs are from memory, their digits not confirmed;
    // the solution was computed apart, in 40-digit decimal arithmetic. Tolerance: the digits given.
    [Fact]
    public void Trilateration_of_one_point_from_three_stations_is_the_least_squares_solution()
    {
        SurveyPlan plan = Good(
            [("X", new(865.40, 4527.15)), ("Y", new(2432.55, 2047.25)), ("Z", new(2865.22, 27.15))],
            [new("X", "U", 6049.00, 1), new("Y", "U", 4736.83, 1), new("Z", "U", 5446.49, 1)]);
        SurveyedPoint point = Assert.Single(plan.Points);
        Assert.Equal(6861.3168, point.Place.EastMetres, tolerance: 1e-3);
        Assert.Equal(3727.8186, point.Place.NorthMetres, tolerance: 1e-3);
        Assert.Equal([-0.037, 0.077, -0.047], plan.ResidualMetres.Select(v => Math.Round(v, 3)));
        Assert.Equal(1, plan.Redundancy);
    }

    // Six ranges published in Norrdine, An algebraic solution to the multilateration problem, 2012 (inputs read in its test file), reduced to the
    // horizontal with the true point's height, 1.13 m. Solution and cofactors: Newton's method on the sum
    // of squares in 40-digit decimal arithmetic, apart from this program.
    [Fact]
    public void Published_ranges_give_the_places_and_errors_of_another_program()
    {
        (double X, double Y, double Z, double Range)[] stations =
        [
            (27.297, -4.953, 1.47, 3.652), (20.693, -4.849, 1.93, 7.036), (22.590, 0.524, 1.2, 4.586),
            (17.113, -3.003, 2.17, 9.960), (22.554, 4.727, 1.77, 7.542), (22.447, -7.880, 1.6, 7.883),
        ];
        SurveyPlan plan = Good(
            [.. stations.Select((s, i) => ($"S{i}", new PlanPoint(s.X, s.Y)))],
            [.. stations.Select((s, i) => new Tape($"S{i}", "P", Math.Sqrt((s.Range * s.Range) - ((s.Z - 1.13) * (s.Z - 1.13))), 0.1))]);
        SurveyedPoint point = Assert.Single(plan.Points);
        Assert.Equal(26.827085513, point.Place.EastMetres, tolerance: 1e-5);
        Assert.Equal(-1.375166681, point.Place.NorthMetres, tolerance: 1e-5);
        Assert.Equal(0.1 * Math.Sqrt(0.310749280), point.EastDeviationMetres, tolerance: 1e-6);
        Assert.Equal(0.1 * Math.Sqrt(0.360053170), point.NorthDeviationMetres, tolerance: 1e-6);
        Assert.Equal(-0.009265802 / Math.Sqrt(0.310749280 * 0.360053170), point.Correlation, tolerance: 1e-5);
    }

    [Fact]
    public void One_simulated_survey_in_ten_misses_its_ninety_percent_ellipses_by_no_more_than_chance()
    {
        int inside = 0, all = 0, alarms = 0;
        for (int seed = 1; seed <= 1000; seed++)
        {
            Simulated survey = new(seed);
            SurveyPlan plan = Good(survey.Fixed, survey.Tapes);
            alarms += plan.Odd is not null || plan.OddOneOf.Count > 0 ? 1 : 0;
            foreach (SurveyedPoint point in plan.Points)
            {
                double east = (point.Place.EastMetres - survey.Truth[point.Name].EastMetres) / point.EastDeviationMetres;
                double north = (point.Place.NorthMetres - survey.Truth[point.Name].NorthMetres) / point.NorthDeviationMetres, rho = point.Correlation;
                double square = ((east * east) - (2 * rho * east * north) + (north * north)) / (1 - (rho * rho));
                inside += square <= -2 * Math.Log(0.1) ? 1 : 0;
                all++;
            }
        }

        Assert.True(inside >= 0.87 * all && inside <= 0.93 * all, $"{inside} of {all} inside.");

        // One good tape in a thousand is called odd, and a survey has fewer than thirty.
        Assert.True(alarms < 40, $"{alarms} false alarms.");
    }

    [Fact]
    public void A_slip_of_one_metre_is_named_where_other_tapes_check_it()
    {
        int named = 0, all = 0, wrong = 0;
        for (int seed = 1; seed <= 150; seed++)
        {
            Simulated survey = new(seed);
            SurveyPlan sound = Good(survey.Fixed, survey.Tapes);
            int tape = survey.Draw(survey.Tapes.Length);
            double slip = survey.Draw(2) == 0 && survey.Tapes[tape].Metres > 2 ? -1 : 1;

            // Redundancy allows where, in tapes without errors, the slip shows and no other tape explains it nearly as well.
            if (sound.Odd is not null || sound.LeastSlipMetres[tape] is not < 0.5
                || SurveyAdjustment.Adjust(survey.Fixed, Slipped(survey.WithoutErrors, tape, slip)).Plan is not { OddOneOf.Count: 0, Odd: int alone } || alone != tape)
            {
                continue;
            }

            SurveyResult result = SurveyAdjustment.Adjust(survey.Fixed, Slipped(survey.Tapes, tape, slip));
            all++;
            named += result.Plan?.Odd == tape ? 1 : 0;
            wrong += result.Plan?.Odd is int other && other != tape ? 1 : 0;
        }

        Assert.True(all > 90, $"{all} slips tried.");
        Assert.True(named >= 0.95 * all, $"{named} of {all} named, {wrong} wrongly.");
        Assert.True(wrong <= 0.03 * all, $"{wrong} of {all} named wrongly.");

        static Tape[] Slipped(Tape[] tapes, int tape, double slip) =>
            [.. tapes.Select((one, i) => i == tape ? one with { Metres = one.Metres + slip } : one)];
    }

    [Fact]
    public void The_order_of_tapes_and_of_their_ends_does_not_matter()
    {
        Simulated survey = new(5);
        SurveyPlan plan = Good(survey.Fixed, survey.Tapes);
        SurveyPlan turned = Good([.. survey.Fixed.Reverse()], [.. survey.Tapes.Reverse().Select(tape => tape with { From = tape.To, To = tape.From })]);
        Assert.All(plan.Points, point =>
        {
            SurveyedPoint other = turned.Points.Single(p => p.Name == point.Name);
            Assert.True(point.Place.DistanceTo(other.Place) < 1e-6);
            Assert.Equal(point.EastDeviationMetres, other.EastDeviationMetres, tolerance: 1e-8);
        });
        Assert.Equal(plan.Next!.Metres, turned.Next!.Metres, tolerance: 1e-6);
    }

    [Fact]
    public void The_next_tape_is_the_best_of_all_that_could_be_drawn()
    {
        Simulated survey = new(9);
        SurveyPlan plan = Good(survey.Fixed, survey.Tapes);
        string[] names = [.. survey.Truth.Keys];
        double best = double.PositiveInfinity, suggested = double.PositiveInfinity;
        foreach (string from in names)
        {
            foreach (string to in names.Where(to => string.CompareOrdinal(from, to) < 0 && !IsTaped(from, to)))
            {
                double metres = PlaceOf(from).DistanceTo(PlaceOf(to)), sum = SquaredErrors(Good(survey.Fixed, [.. survey.Tapes, new(from, to, metres, Tape.DefaultDeviationMetres(metres))]));
                best = Math.Min(best, sum);
                suggested = (from, to) == (plan.Next!.From, plan.Next.To) || (to, from) == (plan.Next.From, plan.Next.To) ? sum : suggested;
            }
        }

        Assert.Equal(best, suggested, tolerance: 1e-9);
        Assert.Equal(plan.Next!.MeanDeviationThenMetres, Math.Sqrt(best / (2 * plan.Points.Count)), tolerance: 1e-6);

        bool IsTaped(string a, string b) => Array.Exists(survey.Tapes, tape => (tape.From, tape.To) == (a, b) || (tape.From, tape.To) == (b, a))
            || (survey.Fixed.Any(point => point.Name == a) && survey.Fixed.Any(point => point.Name == b));

        PlanPoint PlaceOf(string name) => plan.Points.FirstOrDefault(point => point.Name == name)?.Place ?? survey.Truth[name];

        static double SquaredErrors(SurveyPlan of) => of.Points.Sum(p => (p.EastDeviationMetres * p.EastDeviationMetres) + (p.NorthDeviationMetres * p.NorthDeviationMetres));
    }

    [Fact]
    public void Two_tapes_leave_a_mirror_image_and_a_side_settles_it()
    {
        SurveyFlaw flaw = SurveyAdjustment.Adjust(House, [new("A", "P", 10, 0.03), new("B", "P", 9, 0.03)]).Flaw!;
        Assert.Equal((SurveyFlawKind.MirrorImage, "P"), (flaw.Kind, Assert.Single(flaw.Points)));
        Assert.True(Side(TapeSide.Left).NorthMetres > 5);
        Assert.Equal(-Side(TapeSide.Left).NorthMetres, Side(TapeSide.Right).NorthMetres, tolerance: 1e-9);

        static PlanPoint Side(TapeSide side) => Good(House, [new("A", "P", 10, 0.03), new("B", "P", 9, 0.03, side)]).Points[0].Place;
    }

    [Fact]
    public void A_chain_hung_on_one_mirrored_point_is_mirrored_as_a_whole()
    {
        Tape[] tapes = [new("A", "P", 10, 0.03), new("B", "P", 9, 0.03), new("P", "Q", 6, 0.03), new("A", "Q", 14.2, 0.05), new("B", "Q", 9.3, 0.05)];
        Assert.Equal(SurveyFlawKind.MirrorImage, SurveyAdjustment.Adjust(House, tapes).Flaw!.Kind);
        tapes[0] = tapes[0] with { Side = TapeSide.Left };
        Assert.All(Good(House, tapes).Points, point => Assert.True(point.Place.NorthMetres > 0));
    }

    [Fact]
    public void A_point_on_one_tape_is_undetermined()
    {
        SurveyFlaw flaw = SurveyAdjustment.Adjust(House, [new("A", "P", 10, 0.03), new("B", "P", 9, 0.03, TapeSide.Left), new("P", "Q", 3, 0.03)]).Flaw!;
        Assert.Equal((SurveyFlawKind.Undetermined, "Q"), (flaw.Kind, Assert.Single(flaw.Points)));
        Assert.Equal(("A", "Q"), flaw.Suggested);
    }

    [Fact]
    public void Tapes_along_one_line_do_not_place_a_point()
    {
        SurveyFlaw flaw = SurveyAdjustment.Adjust(House, [new("A", "P", 20, 0.03), new("B", "P", 8, 0.03)]).Flaw!;
        Assert.Equal(SurveyFlawKind.InOneLine, flaw.Kind);
    }

    [Fact]
    public void Triangles_that_no_pair_of_stations_reaches_are_still_solved()
    {
        // Three points, each taped to one fixed point and to the two others: no point can be placed by itself.
        Dictionary<string, PlanPoint> truth = new() { ["P"] = new(3, 4), ["Q"] = new(14, 5), ["R"] = new(8, 13) };
        (string Name, PlanPoint Place)[] corners = [("A", new(0, 0)), ("B", new(18, 0)), ("C", new(9, 20))];
        List<Tape> tapes = [];
        foreach ((string from, string to) in new[] { ("A", "P"), ("B", "Q"), ("C", "R"), ("P", "Q"), ("Q", "R"), ("R", "P"), ("A", "R") })
        {
            PlanPoint a = truth.TryGetValue(from, out PlanPoint at) ? at : corners.First(corner => corner.Name == from).Place;
            tapes.Add(new(from, to, a.DistanceTo(truth[to]), 0.02));
        }

        SurveyPlan plan = Good(corners, tapes);
        Assert.All(plan.Points, point => Assert.True(point.Place.DistanceTo(truth[point.Name]) < 1e-4));
    }

    private static SurveyPlan Good(IReadOnlyList<(string Name, PlanPoint Place)> fixedPoints, IReadOnlyList<Tape> tapes)
    {
        SurveyResult result = SurveyAdjustment.Adjust(fixedPoints, tapes);
        Assert.True(result.IsGood, $"{result.Flaw?.Kind} {string.Join(", ", result.Flaw?.Points ?? [])}");
        return result.Plan;
    }

    /// <summary>A garden of a house and five to seven points, each taped from three to five places, with errors as stated.</summary>
    private sealed class Simulated
    {
        private readonly Random _random;

        public Simulated(int seed)
        {
            _random = new(seed);
            Fixed = [("A", new(0, 0)), ("B", new(8 + (6 * _random.NextDouble()), 0)), ("C", new(3 + (4 * _random.NextDouble()), -7))];
            foreach ((string name, PlanPoint place) in Fixed)
            {
                Truth.Add(name, place);
            }

            List<Tape> tapes = [];
            int points = 5 + _random.Next(3);
            for (int p = 0; p < points; p++)
            {
                string name = $"P{p}";
                string[] stations;
                PlanPoint at;
                do
                {
                    stations = [.. Truth.Keys.OrderBy(_ => _random.Next()).Take(3 + _random.Next(3))];
                    at = new((40 * _random.NextDouble()) - 14, 3 + (27 * _random.NextDouble()));
                }
                while (Truth.Values.Any(other => other.DistanceTo(at) < 3) || !WellSeen(at, [.. stations.Select(station => Truth[station])]));
                Truth.Add(name, at);
                foreach (string station in stations)
                {
                    double metres = Truth[station].DistanceTo(at), deviation = Tape.DefaultDeviationMetres(metres);
                    tapes.Add(new(station, name, metres + (deviation * Normal()), deviation));
                }
            }

            Tapes = [.. tapes.OrderBy(_ => _random.Next())];
        }

        public (string Name, PlanPoint Place)[] Fixed { get; }

        public Dictionary<string, PlanPoint> Truth { get; } = [];

        public Tape[] Tapes { get; }

        public Tape[] WithoutErrors => [.. Tapes.Select(tape => tape with { Metres = Truth[tape.From].DistanceTo(Truth[tape.To]) })];

        public int Draw(int below) => _random.Next(below);

        // Some two stations are seen under 30° to 150°, and the stations do not lie in one line: no mirror image fits.
        private static bool WellSeen(PlanPoint at, PlanPoint[] stations)
        {
            double widest = 0, area = 0;
            foreach (PlanPoint a in stations)
            {
                foreach (PlanPoint b in stations)
                {
                    widest = Math.Max(widest, Math.Abs(Cross(at, a, b)) / (at.DistanceTo(a) * at.DistanceTo(b)));
                    foreach (PlanPoint c in stations)
                    {
                        area = Math.Max(area, Math.Abs(Cross(a, b, c)));
                    }
                }
            }

            return widest > 0.5 && area > 40;
        }

        private static double Cross(PlanPoint o, PlanPoint a, PlanPoint b) =>
            ((a.EastMetres - o.EastMetres) * (b.NorthMetres - o.NorthMetres)) - ((a.NorthMetres - o.NorthMetres) * (b.EastMetres - o.EastMetres));

        private double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());
    }
}
