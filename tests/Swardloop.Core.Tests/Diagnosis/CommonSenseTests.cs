using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>What no good technician does is not advised; readings that cannot be are settled first.</summary>
public sealed class CommonSenseTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(30, JointStyle.Twisted));

    [Fact]
    public void No_running_mower_is_asked_for_while_the_lamp_is_in_alarm_or_the_loop_open()
    {
        Assert.DoesNotContain(Kinds(new Observation.StationLamp(LampState.Alarm)), CommonSense.NeedsRunningMower);
        Assert.DoesNotContain(Kinds(new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(null)), CommonSense.NeedsRunningMower);
    }

    [Fact]
    public void Mower_is_checked_after_a_change_only()
    {
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(310), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal)];

        Assert.DoesNotContain(StepKind.MowerCheck, Kinds(seen));
        Assert.Contains(StepKind.MowerCheck, Kinds([.. seen, new Observation.RepairDone(StepKind.RemakeJoint, 30, null, null, "corroded")]));
    }

    [Fact]
    public void Mower_that_is_deaf_beside_the_wire_is_not_started_far_from_it()
    {
        StepKind[] kinds = Kinds(new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.6), new Observation.MowerStart(StartPlace.AtWire, StartOutcome.NoSignal));

        Assert.DoesNotContain(StepKind.MowerStart, kinds);
        Assert.DoesNotContain(kinds, CommonSense.NeedsRunningMower);
    }

    [Fact]
    public void Mower_that_cannot_be_started_is_put_on_its_station_first()
    {
        StepKind[] kinds = Kinds(
            new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.6), new Observation.NotDone(new(StepKind.MowerStart) { Place = StartPlace.MidLawn }));

        Assert.Contains(StepKind.ChargeCheck, kinds);
        Assert.DoesNotContain(StepKind.MowerStart, kinds);
        Assert.DoesNotContain(kinds, CommonSense.NeedsRunningMower);
    }

    [Fact]
    public void What_was_serviced_is_not_serviced_again_and_asks_no_lamp_again()
    {
        StepKind[] kinds = Kinds(
            new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.6), new Observation.MowerStart(StartPlace.AtWire, StartOutcome.NoSignal),
            new Observation.RepairDone(StepKind.ServiceReceiver, null, null, null, null), new Observation.MowerCheck(false));

        Assert.DoesNotContain(StepKind.ServiceReceiver, kinds);
        Assert.DoesNotContain(StepKind.StationLamp, kinds);
    }

    [Fact]
    public void Whether_the_wire_leaks_is_measured_before_a_leak_is_placed()
    {
        StepKind[] kinds = Kinds(new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.6), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs));

        Assert.DoesNotContain(StepKind.EarthRatio, kinds);
        Assert.DoesNotContain(StepKind.EarthGradient, kinds);
    }

    // 310 milliohms on 80 m of wire that has an ohm at least: the clips touch each other. 1600 ohms where the mower runs far from the wire: a k overlooked.
    [Theory]
    [InlineData(0.4, false)]
    [InlineData(1600, true)]
    public void Reading_that_cannot_be_of_the_loop_is_taken_again_first(double ohms, bool runsMidLawn)
    {
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), .. runsMidLawn ? [new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs)] : (Observation[])[], DiagnosisScene.Loop(ohms)];

        Advice advice = DiagnosisScene.Advise(Yard, seen);

        Assert.NotNull(advice.Disagreement);
        Assert.Equal(StepKind.LoopResistance, advice.Next[0].Step.Kind);
    }

    [Fact]
    public void Plausible_readings_are_left_alone()
    {
        foreach (double ohms in (ReadOnlySpan<double>)[1.2, 1.6, 310, 1600, 40_000])
        {
            Assert.Null(DiagnosisScene.Advise(Yard, new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(ohms)).Disagreement);
        }
    }

    // The workshop's own hands are a cause too.
    [Fact]
    public void Ends_swapped_by_the_repair_come_out()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, DiagnosisScene.Loop(null), new Observation.RepairDone(StepKind.MendSpan, null, 20, 21, "broken wire"), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, null),
            DiagnosisScene.Loop(1.6), new Observation.StationLamp(LampState.Normal), new Observation.MowerCheck(false), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Outside));

        Assert.Equal(new Cause(CauseKind.EndsSwapped), advice.Causes[0].Cause);
        Assert.Equal(StepKind.SwapEnds, advice.Next[0].Step.Kind);
    }

    // Under load it sags: no other cause does that, though with nothing to feed it reads well.
    [Fact]
    public void Tired_supply_comes_out_by_its_reading_under_load()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, new Observation.StationLamp(LampState.Flicker), DiagnosisScene.Loop(1.6), new Observation.SupplyVoltage(27.5, 27), new Observation.SupplyVoltage(11, 27, true));

        Assert.Equal(new Cause(CauseKind.Supply), advice.Causes[0].Cause);
        Assert.Equal(StepKind.ReplaceSupply, advice.Next[0].Step.Kind);
    }

    private static StepKind[] Kinds(params Observation[] seen) => [.. DiagnosisScene.Advise(Yard, seen).Next.Select(step => step.Step.Kind)];

    // A rusted clamp was found and remade: whether that was it, the mower itself says, whatever else it may have been.
    [Fact]
    public void After_a_fault_was_found_and_mended_the_mower_is_tried()
    {
        Yard yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Clamp), new Joint(60, JointStyle.Gel));
        ServiceCase @case = DiagnosisScene.Case(
            yard, new Observation.StationLamp(LampState.Normal) { By = Person.Owner }, DiagnosisScene.Loop(13.7), new Observation.SplitResistance(20, 0.7, 1.3, 0.3),
            new Observation.RepairDone(StepKind.RemakeJoint, 20, null, null, "clamp rusted again"), DiagnosisScene.Loop(1.7)) with
        { OnSite = true };

        Assert.Equal(StepKind.MowerCheck, Advisor.Advise(@case, CausePriors.Default, TestContext.Current.CancellationToken).Next[0].Step.Kind);
    }

    [Theory]
    [InlineData(StepKind.ReplaceBattery, false)]
    [InlineData(StepKind.RecodeStation, true)]
    public void A_mower_that_could_not_be_started_may_start_once_it_was_charged(StepKind repair, bool cannot)
    {
        CaseHistory history = new(DiagnosisScene.Case(
            Yard, new Observation.NotDone(new(StepKind.MowerStart)), new Observation.RepairDone(repair, null, null, null, null), new Observation.MowerCheck(false)));

        Assert.Equal(cannot, history.MowerCannotBeStarted);
        Assert.Equal(cannot, history.CouldNotRunMower(Person.Owner));
    }
}
