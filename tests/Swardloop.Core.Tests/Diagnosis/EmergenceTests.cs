using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Consequences of the forward models that nobody put in by hand (model, section 5).</summary>
public sealed class EmergenceTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel));

    private static double LogOdds(Belief belief, CauseKind kind, CauseKind against) =>
        Math.Log2(belief.Group(kind).Weight / belief.Group(against).Weight);

    // The current is the same everywhere. Tolerance: rounding.
    [Fact]
    public void Tone_says_nothing_of_a_series_resistance()
    {
        Observation[] before = [DiagnosisScene.Loop(310)], after = [.. before, new Observation.ToneTrace(30, WireEnd.A, ToneStrength.Strong)];
        Belief without = DiagnosisScene.Believe(Yard, [30], before), with = DiagnosisScene.Believe(Yard, [30], after);

        DiagnosisScene.AssertClose(without.PlaceShares(CauseKind.SeriesResistance), with.PlaceShares(CauseKind.SeriesResistance), 1e-12);
        Assert.Equal(
            LogOdds(without, CauseKind.SeriesResistance, CauseKind.Receiver), LogOdds(with, CauseKind.SeriesResistance, CauseKind.Receiver), 1e-9);
    }

    [Fact]
    public void Lost_tone_points_at_a_break_before_it()
    {
        Belief belief = DiagnosisScene.Believe(
            Yard, [30], DiagnosisScene.Loop(null), new Observation.ToneTrace(30, WireEnd.A, ToneStrength.None));

        double before = belief.PlaceShares(CauseKind.Open).Where((_, i) => belief.Grid.Places[i].ToMetres <= 30).Sum();
        Belief without = DiagnosisScene.Believe(Yard, [30], DiagnosisScene.Loop(null));
        double beforeUnasked = without.PlaceShares(CauseKind.Open).Where((_, i) => without.Grid.Places[i].ToMetres <= 30).Sum();
        Assert.True(before > beforeUnasked + 0.2, $"{before} after, {beforeUnasked} before");
    }

    // The lamp's limit is some 20 kΩ: hardly any evidence of a good loop, strong evidence of a break when it alarms.
    [Fact]
    public void Good_lamp_is_hardly_evidence_of_a_good_loop()
    {
        Belief none = DiagnosisScene.Believe(Yard, []), good = DiagnosisScene.Believe(Yard, [], new Observation.StationLamp(LampState.Normal));

        double bits = LogOdds(good, CauseKind.SeriesResistance, CauseKind.Receiver) - LogOdds(none, CauseKind.SeriesResistance, CauseKind.Receiver);
        Assert.InRange(bits, -0.3, 0);
    }

    [Fact]
    public void Alarm_lamp_speaks_strongly_for_a_break()
    {
        Belief none = DiagnosisScene.Believe(Yard, []), alarm = DiagnosisScene.Believe(Yard, [], new Observation.StationLamp(LampState.Alarm));

        Assert.True(LogOdds(alarm, CauseKind.Open, CauseKind.Receiver) - LogOdds(none, CauseKind.Open, CauseKind.Receiver) > 4);
        Assert.Equal(CauseKind.Open, DiagnosisScene.Advise(Yard, new Observation.StationLamp(LampState.Alarm)).Causes[0].Cause.First);
    }

    // References D2: two equal leaks at 20 and 60 of 80 m read as one at 40 m, where there is none.
    [Fact]
    public void Earth_ratio_of_two_equal_leaks_points_between_them()
    {
        Belief belief = DiagnosisScene.Believe(Yard, [], new Observation.EarthRatio(6, 6), new Observation.EarthResistance(2_000));

        double[] shares = belief.PlaceShares(CauseKind.Leak);
        Assert.Equal(40, belief.Grid.Places[Array.IndexOf(shares, shares.Max())].AtMetres, 2.5);

        // Any two about that middle explain it; two on one side of it do not.
        double straddling = 0, all = 0;
        foreach (FaultAtom atom in belief.Group(CauseKind.LeakPair).Atoms)
        {
            all += atom.Weight;
            straddling += atom.First.Place.FromMetres <= 42 && atom.Second!.Value.Place.ToMetres >= 38 ? atom.Weight : 0;
        }

        Assert.InRange(straddling / all, 0.9, 1);
    }

    // s/L = Va/(Va + Vb), whatever the leak's own resistance.
    [Theory]
    [InlineData(400)]
    [InlineData(20_000)]
    public void Earth_ratio_places_a_leak_whatever_its_size(double leakOhms)
    {
        Observation ratio = new Observation.EarthRatio(3, 9);
        double[] alone = DiagnosisScene.Believe(Yard, [], ratio).PlaceShares(CauseKind.Leak);
        Belief belief = DiagnosisScene.Believe(Yard, [], ratio, new Observation.EarthResistance(leakOhms));

        double[] shares = belief.PlaceShares(CauseKind.Leak);
        DiagnosisScene.AssertClose(alone, shares, 1e-9);
        double mean = shares.Select((share, i) => share * belief.Grid.Places[i].AtMetres).Sum();
        Assert.Equal(20, mean, 1.0);
    }

    // No leak but what a sound wire leaks all along: the battery's volts fall at the faults, and earth floats between. The network itself says so;
    // tolerance: the voltmeter's ten megohms load the two ends a little differently.
    [Theory]
    [InlineData(20, 400, 60, 0)]
    [InlineData(55, 12, 60, 0)]
    [InlineData(10, 5_000, 60, 2_000)]
    public void Earth_ratio_across_faults_in_series_is_that_of_the_network(double firstMetres, double firstOhms, double secondMetres, double secondOhms)
    {
        LoopNetwork loop = new(
            new WireLine(80, 0.0172), [new WireFault.SeriesResistance(firstMetres, firstOhms), new WireFault.SeriesResistance(secondMetres, secondOhms)]);
        (double voltsA, double voltsB) = loop.EarthRatioVolts();
        double total = (80 * 0.0172) + firstOhms + secondOhms;

        double mean = PlaceTestModel.EvenRatio((firstMetres / 80, firstOhms / total), (secondMetres / 80, secondOhms / total));
        Assert.Equal(voltsA / (voltsA + voltsB), mean, 1e-3);
    }

    [Theory]
    [InlineData(400.0)]
    [InlineData(null)]
    public void Earth_ratio_says_on_which_side_a_fault_in_series_lies(double? loopOhms)
    {
        CauseKind kind = loopOhms is null ? CauseKind.Open : CauseKind.SeriesResistance;
        Belief belief = DiagnosisScene.Believe(Yard, [], DiagnosisScene.Loop(loopOhms), new Observation.EarthRatio(4.2, 1.4));

        // What a sound loop floats on is anybody's guess (model, section 5): the ratio leans to a side and places nothing.
        double before = belief.PlaceShares(kind).Where((_, i) => belief.Grid.Places[i].ToMetres <= 28).Sum();
        Assert.InRange(before, 0.6, 0.9);
    }

    // Opening the faulty joint remakes it: both sides read healthy and what is owed is a look at the mower.
    [Fact]
    public void Opening_the_faulty_joint_cures_it()
    {
        Observation[] seen =
        [
            new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal),
            DiagnosisScene.Loop(310), new Observation.SplitResistance(20, 0.7, 1.4, 0.3),
        ];

        FaultGroup series = DiagnosisScene.Believe(Yard, [], seen).Group(CauseKind.SeriesResistance);
        Advice advice = DiagnosisScene.Advise(Yard, seen);

        Assert.InRange(series.Mended / series.Weight, 0.9, 1);
        Assert.Equal(StepKind.MowerCheck, advice.Next[0].Step.Kind);
        Assert.False(advice.Finished);
        Assert.True(DiagnosisScene.Advise(Yard, [.. seen, new Observation.MowerCheck(true)]).Finished);
    }

    // A resistance found and mended, and the mower still crosses the wire beside the fence: leaks were there too.
    [Fact]
    public void Leaks_come_out_once_the_resistance_beside_them_is_mended()
    {
        Yard yard = DiagnosisScene.Rectangle(20, 20, new Joint(30, JointStyle.Twisted)) with { Metal = [new("fence", new([new(-1, 2), new(-1, 18)]), 40)] };
        Observation[] seen =
        [
            DiagnosisScene.Loop(390), new Observation.SplitResistance(30, 0.6, 1, 0.3), new Observation.MowerCheck(false),
            new Observation.WireCrossing(true, null, true), new Observation.EarthResistance(290),
        ];

        Advice advice = DiagnosisScene.Advise(yard, seen);

        // What was mended is no answer any more: the leaks are.
        Assert.Equal(new Cause(CauseKind.LeakPair), advice.Causes[0].Cause);
        Assert.True(advice.Causes[0].Probability > 0.5, $"{advice.Causes[0].Probability}");
        Assert.NotNull(advice.Location);
        Assert.InRange(advice.Location.AtMetres, 58, 80);
    }

    // With the resistance still there the same crossing and earth reading speak for leaks alone, and nothing is said of a pair.
    [Fact]
    public void No_pair_with_leaks_is_named_before_anything_was_mended()
    {
        Yard yard = DiagnosisScene.Rectangle(20, 20, new Joint(30, JointStyle.Twisted)) with { Metal = [new("fence", new([new(-1, 2), new(-1, 18)]), 40)] };

        Advice advice = DiagnosisScene.Advise(yard, DiagnosisScene.Loop(1.8), new Observation.WireCrossing(true, null, true), new Observation.EarthResistance(290));

        Assert.DoesNotContain(advice.Causes, cause => cause.Cause.Second is CauseKind.LeakPair && cause.Probability > 0);
        Assert.Equal(new Cause(CauseKind.LeakPair), advice.Causes[0].Cause);
    }

    // A yard whose file names a neighbour of the same coding is likelier to be disturbed than one beside which nobody knows of a loop.
    [Fact]
    public void Neighbours_of_the_file_count_for_crosstalk()
    {
        NeighbourLoop Neighbour(bool sameCoding) => new(new([new(21, 0), new(30, 0), new(30, 10), new(21, 10), new(21, 0)]), sameCoding, 3);
        double Crosstalk(params NeighbourLoop[] neighbours) => DiagnosisScene.Advise(Yard with { Neighbours = neighbours }).Probability(CauseKind.Crosstalk);

        Assert.True(Crosstalk() < Crosstalk(Neighbour(false)));
        Assert.True(Crosstalk(Neighbour(false)) < Crosstalk(Neighbour(false), Neighbour(true)));
    }
}
