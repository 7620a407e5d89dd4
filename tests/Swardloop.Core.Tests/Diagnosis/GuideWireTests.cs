using CsCheck;
using Swardloop.Core.Circuits;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Guide wires: what both readings to one say of the loop and of the guide, against the network, and what is advised.</summary>
public sealed class GuideWireTests
{
    private const double Join = 30;

    // 20 by 20 m: 80 m of loop; the guide runs from the station at the corner to the loop's far side.
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(14, JointStyle.Twisted), new Joint(Join, JointStyle.Gel), new Joint(62, JointStyle.Crimped)) with
    {
        Guides = [new("G1", Join, new([new(0, 0), new(20, 10)]))],
    };

    private static Observation.GuideResistance Guide(double? ohmsA, double? ohmsB) => new Observation.GuideResistance("G1", ohmsA, ohmsB, 0.3, MeterAccuracy.Plain);

    /// <summary>The reading between two ends of a loop with a guide, by nodal analysis: 1 A is driven through, and the volts read.</summary>
    private static double Read(YardPhysics physics, string from, string to, double faultMetres, double faultOhms, double guideOhms)
    {
        double perMetre = physics.OhmsPerMetre;
        Network network = new(
            ["A", "J", "B", "G"],
            [
                new Element.Resistor("before", "A", "J", (Join * perMetre) + (faultMetres < Join ? faultOhms : 0)),
                new Element.Resistor("behind", "J", "B", ((80 - Join) * perMetre) + (faultMetres > Join ? faultOhms : 0)),
                new Element.Resistor("guide", "J", "G", physics.Guides[0].Ohms + guideOhms),
                new Element.CurrentSource("meter", to, from, 1),
            ],
            to);
        return network.SolveDc().OrThrow().Volts(from).Real;
    }

    // Second route: the network with a branch. What is left of the reading is what the faults in its path add; tolerance: the solver's.
    [Fact]
    public void Readings_to_a_guide_are_those_of_the_network() => Gen.Select(Gen.Double[1, 79], Gen.Double[0.5, 3000], Gen.Double[0, 400]).Sample(
        (faultMetres, faultOhms, guideOhms) =>
        {
            // The joint itself is on neither side: see below.
            faultMetres += Math.Abs(faultMetres - Join) < 0.01 ? 0.5 : 0;
            YardPhysics physics = new(Yard);
            double a = Read(physics, "A", "G", faultMetres, faultOhms, guideOhms), b = Read(physics, "B", "G", faultMetres, faultOhms, guideOhms);
            List<OhmsReading> readings = OhmsReading.From(Guide(a + 0.3, b + 0.3), 0, 0, 1, physics);
            Place onGuide = new(PlaceKind.Span, 5, 6) { Guide = 1 };

            Assert.Equal(2, readings.Count);
            Assert.All(readings, reading =>
            {
                double added = (reading.Includes(faultMetres) ? faultOhms : 0) + (reading.IncludesOnGuide(onGuide) ? guideOhms : 0);
                Assert.Equal(reading.Ohms!.Value, reading.NominalOhms + added, 1e-9 * (1 + faultOhms + guideOhms));
            });
        },
        iter: 40, threads: 1);

    [Theory]
    [InlineData(1.0, 97.0, 30, 80)]
    [InlineData(97.0, 1.0, 0, 30)]
    public void Two_readings_acquit_half_of_the_loop(double ohmsA, double ohmsB, double from, double to)
    {
        Belief belief = DiagnosisScene.Believe(Yard, [], DiagnosisScene.Loop(97.4), Guide(ohmsA + 0.3, ohmsB + 0.3));

        double[] shares = belief.PlaceShares(CauseKind.SeriesResistance);
        double inHalf = shares.Where((_, i) => belief.Grid.Places[i].AtMetres >= from && belief.Grid.Places[i].AtMetres <= to).Sum();
        Assert.InRange(inHalf, 0.99, 1);
    }

    // The joint where three wires meet: which of them is loose is not known from one side.
    [Fact]
    public void The_joint_with_the_guide_is_on_neither_side()
    {
        double JoinShare(double ohmsA, double ohmsB)
        {
            Belief belief = DiagnosisScene.Believe(Yard, [], DiagnosisScene.Loop(97.4), Guide(ohmsA + 0.3, ohmsB + 0.3));
            int join = Array.FindIndex(belief.Grid.Places, place => place.Kind == PlaceKind.Joint && place.FromMetres == Join);
            return belief.PlaceShares(CauseKind.SeriesResistance)[join];
        }

        Assert.True(JoinShare(1, 97) > 0.01, $"{JoinShare(1, 97)}");
        Assert.True(JoinShare(97, 1) > 0.01, $"{JoinShare(97, 1)}");
    }

    [Fact]
    public void Over_range_from_both_ends_of_a_whole_loop_is_the_guide()
    {
        Advice advice = DiagnosisScene.Advise(Yard, DiagnosisScene.Loop(1.7), Guide(null, null));

        Assert.InRange(advice.Probability(CauseKind.Guide), 0.9, 1);
        Assert.All(advice.Next, step => Assert.True(step.Step.Kind is not (StepKind.GuideResistance or StepKind.RelayLayout or StepKind.RenewLoop)));
        Assert.Contains(advice.Next, step => step.Step.Wire == "G1" || step.Step is { Kind: StepKind.RemakeJoint, AtMetres: Join });
    }

    [Fact]
    public void Sound_readings_acquit_the_guide()
    {
        Advice before = DiagnosisScene.Advise(Yard, DiagnosisScene.Loop(1.7)), after = DiagnosisScene.Advise(Yard, DiagnosisScene.Loop(1.7), Guide(1.4, 1.7));

        Assert.True(before.Probability(CauseKind.Guide) > 0.05, $"{before.Probability(CauseKind.Guide)}");
        Assert.True(after.Probability(CauseKind.Guide) < before.Probability(CauseKind.Guide) / 10, $"{after.Probability(CauseKind.Guide)}");
    }

    [Fact]
    public void A_cut_guide_says_on_which_side_of_the_cut_it_is_broken()
    {
        Belief belief = DiagnosisScene.Believe(
            Yard, [], DiagnosisScene.Loop(1.7), Guide(null, null), new Observation.SplitResistance(10, 0.5, null, 0.3) { Wire = "G1" });

        FaultGroup guide = belief.Group(CauseKind.Guide);
        double beyond = guide.Atoms.Where(atom => atom.First.Place.AtMetres > 10).Sum(atom => atom.Weight);
        Assert.InRange(beyond / guide.Weight, 0.98, 1);
    }

    [Fact]
    public void A_guide_that_was_dug_up_and_found_broken_is_mended()
    {
        Observation[] seen =
        [
            DiagnosisScene.Loop(1.7), Guide(null, null), new Observation.RepairDone(StepKind.MendSpan, null, 8, 14, "broken wire") { Wire = "G1" },
        ];

        FaultGroup guide = DiagnosisScene.Believe(Yard, [], seen).Group(CauseKind.Guide);
        Advice advice = DiagnosisScene.Advise(Yard, seen);

        Assert.InRange(guide.Mended / guide.Weight, 0.85, 1);
        Assert.Equal(StepKind.MowerCheck, advice.Next[0].Step.Kind);
    }

    // What was done on a guide is nothing that was done on the loop at the same metre.
    [Fact]
    public void Mending_a_guide_mends_no_loop()
    {
        FaultGroup series = DiagnosisScene.Believe(
            Yard, [], DiagnosisScene.Loop(97.4), new Observation.RepairDone(StepKind.MendSpan, null, 0, 20, "broken wire") { Wire = "G1" }).Group(CauseKind.SeriesResistance);

        Assert.Equal(0, series.Mended / series.Weight, 1e-9);
    }

    [Fact]
    public void Where_there_is_no_guide_none_is_blamed()
    {
        Advice advice = DiagnosisScene.Advise(Yard with { Guides = [] }, DiagnosisScene.Loop(1.7), new Observation.FollowWire(FollowOutcome.Lost));

        Assert.Equal(0, advice.Probability(CauseKind.Guide));
        Assert.DoesNotContain(advice.Next, step => step.Step.Kind == StepKind.GuideResistance);
    }

    [Theory]
    [InlineData("it mows and never finds its way home")]
    [InlineData("findet nicht mehr heim")]
    public void A_mower_that_does_not_come_home_speaks_for_the_guide(string complaint)
    {
        Advice advice = Advisor.Advise(DiagnosisScene.Case(Yard, DiagnosisScene.Loop(1.7), new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs)) with { Complaint = complaint, Can = new() { OwnerInstruments = Instruments.Multimeter } }, CausePriors.Default, TestContext.Current.CancellationToken);

        Assert.InRange(advice.Probability(CauseKind.Guide), 0.5, 1);
        Assert.Equal(StepKind.GuideResistance, advice.Next[0].Step.Kind);
    }

    // The loop has its own reading, the guide has both in its path: neither is put down to what nobody knows.
    [Fact]
    public void A_broken_guide_beside_a_bad_joint_is_both_and_comes_out_once_the_joint_is_mended()
    {
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal), Guide(null, null), DiagnosisScene.Loop(318)];
        Advice both = DiagnosisScene.Advise(Yard, seen);
        Advice left = DiagnosisScene.Advise(
            Yard, [.. seen, new Observation.RepairDone(StepKind.RemakeJoint, 14, null, null, "damaged"), new Observation.MowerCheck(false), DiagnosisScene.Loop(1.9)]);

        Assert.True(both.Causes[0].Cause == new Cause(CauseKind.SeriesResistance, CauseKind.Guide) && both.Causes[0].Probability > 0.7, string.Join("; ", both.Causes.Take(4)));
        Assert.Equal(new Cause(CauseKind.Guide), left.Causes[0].Cause);
    }
}
