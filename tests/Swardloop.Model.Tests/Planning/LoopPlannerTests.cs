using System.Text;
using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Lawns;
using Swardloop.Model.Yards;
using Swardloop.Planning;

namespace Swardloop.Model.Tests.Planning;

public sealed class LoopPlannerTests
{
    private static readonly bool IsLong = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1";

    /// <summary>All 200 lawns that the issue asks for run with SWARDLOOP_LONG=1; else some, with those on which the planner once failed: a pocket behind a neck, runs that crossed
    /// wire, bends that touch, a second turn taken for an island.</summary>
    private static readonly int[] Lawns = IsLong ? [.. Enumerable.Range(1, 200)] : [1, 2, 3, 4, 5, 6, 8, 10, 11, 49, 67, 84, 85, 173];

    [Fact]
    public void Random_lawns_get_valid_yards_with_full_reception_and_wires_apart()
    {
        // Every lawn is looked at, so that one run names all that fail.
        List<string> wrong = [];
        foreach (int seed in Lawns)
        {
            if (Record.Exception(() => AssertValid(seed)) is { } failure)
            {
                wrong.Add(failure.Message);
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    private static void AssertValid(int seed)
    {
        LawnFile file = new RandomLawn(seed).File;
        IReadOnlyList<PlannedLoop> plans = Plan(file);
        Assert.True(plans.Count is 1 or 2 or 3, $"lawn {seed}: {plans.Count} plans");
        Assert.True(plans[0].IsFull, $"lawn {seed}: {plans[0].WeakestMarginDecibels} dB with {plans[0].Turns} turns");
        foreach (PlannedLoop plan in plans)
        {
            var read = YardFile.Read(plan.Yard.ToUtf8(), "plan");
            Assert.True(read.IsGood, $"lawn {seed}: {string.Join("\n", read.Lines())}");
            Assert.True(!read.Value.Notes.Any(note => note.Message.Contains("island", StringComparison.OrdinalIgnoreCase)), $"lawn {seed}: {string.Join("\n", read.Value.Notes)}");
        }

        AssertMargin(plans[0], seed);
        AssertApart(plans[0], file.Rules, seed);
    }

    // Lower bound, computed apart: each ring's edges moved by the inset and met at square corners, less what rounding a square corner can save, (2 − π/2) r, and twice a
    // shortest spanning tree between those rings, by Prim over their corners and edges. The rings of these lawns are far from each other.
    [Fact]
    public void The_wire_is_within_three_percent_of_a_lower_bound()
    {
        int tried = 0;
        foreach (int seed in Lawns.Where(seed => seed % 2 == 0))
        {
            RandomLawn lawn = new(seed);
            LawnFile file = lawn.File;
            PlannedLoop plan = Plan(file).First(one => one.Turns == 1 || one.IsFull);
            double metres = plan.SlitMetres + RunsAgain(plan), bound = LowerBound(lawn, file.Rules);
            Assert.True(metres <= 1.03 * bound, $"lawn {seed}: {metres} m where {bound} m might do");
            Assert.True(metres >= 0.995 * bound, $"lawn {seed}: {metres} m is less than the bound {bound} m");
            tried++;
        }

        Assert.True(tried >= 5);

        static double RunsAgain(PlannedLoop plan) => (plan.Yard.Yard.Loop.LengthMetres / plan.Turns) - plan.SlitMetres;
    }

    [Fact]
    public void A_wide_lawn_gets_more_turns_and_each_turn_its_share_of_the_field()
    {
        LawnFile file = Read("""{"format":"swardloop-lawn/1","name":"wide","lawn":[[[0,0],[16,0],[16,30],[0,30]]],"stationPlaces":[[8,0]],"conductor":{"material":"copper","areaMm2":1.5}}""");
        IReadOnlyList<PlannedLoop> plans = Plan(file);
        PlannedLoop one = plans.Single(plan => plan.Turns == 1), more = plans[0];
        Assert.False(one.IsFull);
        Assert.True(more.IsFull && more.Turns == 2);
        Assert.Equal(2 * one.Weakest.FieldPerAmpere, more.Weakest.FieldPerAmpere, tolerance: 0.001 * one.Weakest.FieldPerAmpere);

        // Twice the turns, four times the inductance, less what two wires side by side do not share.
        Assert.InRange(more.Budget.InductanceHenry, 3.4 * one.Budget.InductanceHenry, 4 * one.Budget.InductanceHenry);
        Assert.Contains(one.Notes, note => note.Contains("the margin is", StringComparison.Ordinal));
    }

    [Fact]
    public void An_island_is_reached_from_the_side_without_paving()
    {
        const string Lawn = """{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[14,0],[14,12],[0,12]]],"holes":[[[6,4],[8,4],[8,6],[6,6]]],"crossings":[@],"conductor":{"material":"copper","areaMm2":1.5}}""";
        PlannedLoop free = Plan(Read(Lawn.Replace("@", "", StringComparison.Ordinal)))[0];
        Assert.Equal(0, free.PavedCrossings);

        // A drive along the south edge, where the island's shortest run would cross it: the loop itself stays on the lawn's sides.
        PlannedLoop paved = Plan(Read(Lawn.Replace("@", """{"path":[[1,2],[13,2]],"costPerM":100,"widthM":1}""", StringComparison.Ordinal)))[0];
        Assert.Equal(0, paved.PavedCrossings);
        Assert.True(paved.Yard.Yard.Loop.LengthMetres >= free.Yard.Yard.Loop.LengthMetres);
    }

    [Fact]
    public void A_passage_too_narrow_for_wires_is_told()
    {
        LawnFile file = Read("""{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[10,0],[10,8],[5.4,8],[5.4,12],[10,12],[10,20],[0,20],[0,12],[4.6,12],[4.6,8],[0,8]]],"conductor":{"material":"copper","areaMm2":1.5}}""");
        PlannedLoop plan = Plan(file)[0];

        // Both rooms are wired, joined by a pair through the passage.
        Assert.True(plan.IsFull);
        Assert.True(plan.Yard.Yard.Loop.LengthMetres > (2 * 33) + (2 * 4), $"{plan.Yard.Yard.Loop.LengthMetres} m");
        AssertMargin(plan, 0);
    }

    [Fact]
    public void A_lawn_too_small_for_its_insets_gets_no_plan() =>
        Assert.Empty(Plan(Read("""{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[1.2,0],[1.2,8],[0,8]]],"edges":[{"ring":0,"fromCorner":0,"toCorner":0,"kind":"water"}]}""")));

    [Fact]
    public void A_station_away_from_the_wire_gets_a_pair_and_straight_wire()
    {
        PlannedLoop plan = Plan(Read("""{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[12,0],[12,9],[0,9]]],"stationPlaces":[[6,-1.2]],"conductor":{"material":"copper","areaMm2":1.5}}"""))[0];
        IReadOnlyList<PlanPoint> path = plan.Yard.Yard.Loop.Path.Points;
        Assert.Equal(new PlanPoint(6, -1.2), path[0]);
        Assert.Equal(path[0], path[^1]);
        Assert.Equal(path[1], path[^2]);
        Assert.True(path[1].DistanceTo(path[2]) >= 1.5 && path[^2].DistanceTo(path[^3]) >= 1.5);
    }

    private static IReadOnlyList<PlannedLoop> Plan(LawnFile file) => LoopPlanner.Plan(file, cancellation: TestContext.Current.CancellationToken);

    private static LawnFile Read(string text)
    {
        var read = LawnFile.Read(Encoding.UTF8.GetBytes(text), "test");
        Assert.True(read.IsGood, string.Join("\n", read.Lines()));
        return read.Value;
    }

    /// <summary>Places all over the lawn, on a grid of the test's own, have the margin that the plan states for the weakest.</summary>
    private static void AssertMargin(PlannedLoop plan, int seed)
    {
        Yard yard = plan.Yard.Yard;
        LoopReach reach = new(yard, 0.5);
        SignalBudget signal = SignalBudget.Of(yard, plan.Budget.InductanceHenry);
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        for (double east = southWest.EastMetres + 0.13; east < northEast.EastMetres; east += 1.31)
        {
            for (double north = southWest.NorthMetres + 0.17; north < northEast.NorthMetres; north += 1.31)
            {
                PlanPoint at = new(east, north);
                if (yard.Lawn.Contains(at))
                {
                    double margin = signal.MarginDecibels(reach.StrengthAt(at), plan.EndOfLifeOhms);
                    Assert.True(margin >= plan.WeakestMarginDecibels - 1e-6, $"lawn {seed}: {margin} dB at {at}, stated weakest {plan.WeakestMarginDecibels}");
                }
            }
        }

        Assert.True(plan.EndOfLifeOhms > plan.Budget.ExpectedOhms.High);
    }

    /// <summary>Wires that do not lie in one slit keep the table's distance; bends, and what lies near a run, apart.</summary>
    private static void AssertApart(PlannedLoop plan, LayoutRules rules, int seed)
    {
        WirePath wire = plan.Yard.Yard.Loop.Path;
        double lap = wire.LengthMetres / plan.Turns, step = 0.3;
        PlanPoint[] places = [.. Enumerable.Range(0, (int)(lap / step)).Select(i => wire.PointAt(i * step))];
        bool[] nearPair = new bool[places.Length];
        for (int i = 0; i < places.Length; i++)
        {
            for (int j = i + 7; j < places.Length; j++)
            {
                if (IsFarAlong(i, j) && places[i].DistanceTo(places[j]) < 0.2 && WireGap(places[i], j) < 0.03)
                {
                    nearPair[i] = nearPair[j] = true;
                }
            }
        }

        PlanPoint[] pairs = [.. places.Where((_, i) => nearPair[i])];
        for (int i = 0; i < places.Length; i++)
        {
            for (int j = i + 7; j < places.Length; j++)
            {
                if (IsFarAlong(i, j) && places[i].DistanceTo(places[j]) < rules.ApartMetres - 0.08
                    && !Array.Exists(pairs, pair => pair.DistanceTo(places[i]) < 1 || pair.DistanceTo(places[j]) < 1) && plan.Notes.All(note => !note.StartsWith("A pair", StringComparison.Ordinal)))
                {
                    // On both sides of a bed or of a step in the edge wires may be nearer: insets on both sides keep them apart there.
                    PlanPoint middle = places[i].Towards(places[j], 0.5);
                    Assert.True(!plan.Yard.Yard.Lawn.Contains(middle) && places[i].DistanceTo(places[j]) >= 0.28, $"lawn {seed}: wires {places[i].DistanceTo(places[j])} m apart at {middle}");
                }
            }
        }

        bool IsFarAlong(int i, int j) => (j - i) * step > 2 && lap - ((j - i) * step) > 2;

        double WireGap(PlanPoint from, int j) => WirePathPiece(j).NearestTo(from).DistanceMetres;

        WirePath WirePathPiece(int j) => new([wire.PointAt((j * step) - (step / 2)), wire.PointAt(j * step), wire.PointAt((j * step) + (step / 2))]);
    }

    private static double LowerBound(RandomLawn lawn, LayoutRules rules)
    {
        List<PlanPoint[]> rings = [Moved(lawn.Ring, rules.InsetMetres[lawn.KindOfRing[0]])];
        double corner = 2 - (Math.PI / 2), sum = Perimeter(rings[0]);
        for (int i = 0; i < lawn.Ring.Length; i++)
        {
            bool convex = Turn(lawn.Ring, i) > 0;
            sum -= corner * (convex ? Math.Max(rules.BendMetres, rules.ApartMetres / 2) : rules.InsetMetres[lawn.KindOfRing[0]]);
        }

        for (int h = 0; h < lawn.Holes.Count; h++)
        {
            double inset = rules.InsetMetres[lawn.KindOfRing[h + 1]];
            PlanPoint[] ring = Moved(lawn.Holes[h], -inset);
            rings.Add(ring);
            sum += Perimeter(ring) - (4 * corner * inset);
        }

        List<int> joined = [0];
        while (joined.Count < rings.Count)
        {
            (double gap, int next) = Enumerable.Range(0, rings.Count).Where(i => !joined.Contains(i)).Select(i => (joined.Min(j => Gap(rings[i], rings[j])), i)).Min();
            sum += 2 * gap;
            joined.Add(next);
        }

        return sum;
    }

    private static double Turn(PlanPoint[] ring, int i)
    {
        PlanPoint a = ring[(i + ring.Length - 1) % ring.Length], b = ring[i], c = ring[(i + 1) % ring.Length];
        return ((b.EastMetres - a.EastMetres) * (c.NorthMetres - b.NorthMetres)) - ((b.NorthMetres - a.NorthMetres) * (c.EastMetres - b.EastMetres));
    }

    /// <summary>A counter-clockwise ring of square corners with each edge moved to its left.</summary>
    private static PlanPoint[] Moved(PlanPoint[] ring, double metres) =>
        [.. ring.Select((b, i) =>
        {
            PlanPoint a = ring[(i + ring.Length - 1) % ring.Length], c = ring[(i + 1) % ring.Length];
            double ab = a.DistanceTo(b), bc = b.DistanceTo(c);
            return new PlanPoint(
                b.EastMetres - (metres * (((b.NorthMetres - a.NorthMetres) / ab) + ((c.NorthMetres - b.NorthMetres) / bc))),
                b.NorthMetres + (metres * (((b.EastMetres - a.EastMetres) / ab) + ((c.EastMetres - b.EastMetres) / bc))));
        })];

    private static double Perimeter(PlanPoint[] ring) => ring.Select((point, i) => point.DistanceTo(ring[(i + 1) % ring.Length])).Sum();

    private static double Gap(PlanPoint[] a, PlanPoint[] b)
    {
        WirePath pathA = new([.. a, a[0]]), pathB = new([.. b, b[0]]);
        return Math.Min(a.Min(corner => pathB.NearestTo(corner).DistanceMetres), b.Min(corner => pathA.NearestTo(corner).DistanceMetres));
    }
}
