using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>A cause that comes out once another is mended, and what a mower says that cannot be made to drive.</summary>
public sealed class SecondCauseTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel));

    [Fact]
    public void A_flat_mower_behind_a_mended_break_is_found_by_looking_whether_it_charges()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, new Observation.StationLamp(LampState.Alarm), DiagnosisScene.Loop(null), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, "damaged"),
            new Observation.MowerCheck(false), DiagnosisScene.Loop(1.7), new Observation.StationLamp(LampState.Normal), new Observation.ChargeCheck(false));

        Assert.Equal(new Cause(CauseKind.Charging), advice.Causes[0].Cause);
        Assert.True(advice.Probability(CauseKind.None) < 0.1);
    }

    [Fact]
    public void Another_mower_that_runs_speaks_for_a_flat_one()
    {
        Observation lamp = new Observation.StationLamp(LampState.Normal), loop = DiagnosisScene.Loop(1.7), flat = new Observation.ChargeCheck(false);
        double before = DiagnosisScene.Advise(Yard, lamp, loop, flat).Probability(CauseKind.Charging);
        double after = DiagnosisScene.Advise(Yard, lamp, loop, flat, new Observation.SubstituteMower(true)).Probability(CauseKind.Charging);

        Assert.True(after > before, $"{before} then {after}");
    }

    // Whoever could not make it drive once could not the second time either: one observation, whatever the tests were.
    [Fact]
    public void A_mower_that_no_technician_can_start_is_flat_or_locked()
    {
        Observation lamp = new Observation.StationLamp(LampState.Normal), loop = DiagnosisScene.Loop(1.7);
        Observation start = new Observation.NotDone(new(StepKind.MowerStart)), reach = new Observation.NotDone(new(StepKind.MowerReach)), look = new Observation.NotDone(new(StepKind.TerminalLook));
        double Stands(params Observation[] seen)
        {
            Advice advice = DiagnosisScene.Advise(Yard, [lamp, loop, .. seen]);
            double stands = advice.Probability(CauseKind.Charging) + advice.Probability(CauseKind.Unmodelled);
            return stands / (1 - stands);
        }

        double none = Stands(), once = Stands(start);
        Assert.InRange(once / none, 4, 40);
        Assert.InRange(Stands(start, reach) / once, 0.9, 1.5);
        Assert.Equal(none, Stands(look), none * 1e-9);
    }

    // Each form of a cause answers in its own way; planning with one of them for all would ask what tells nothing.
    [Fact]
    public void Planning_keeps_the_forms_of_a_cause_apart()
    {
        YardPhysics physics = new(Yard);
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.7)];
        PlaceGrid grid = PlaceGrid.Cut(Yard, [], 4);
        Belief belief = new(physics, CaseEvidence.From(seen, physics), CausePriors.Default, grid, grid, grid, withPairs: false);
        ServiceCase @case = DiagnosisScene.Case(Yard, seen);
        PlanAtoms plan = PlanAtoms.Of(belief, new(@case, new(@case), physics, CauseKind.SeriesResistance));

        Condition[] forms = [.. plan.Atoms.Where(atom => atom.Kind == CauseKind.Unmodelled).Select(atom => atom.Condition)];
        Assert.Equal(4, forms.Length);
        Assert.Equal(4, forms.Distinct().Count());
        foreach (FaultAtom atom in belief.Group(CauseKind.Unmodelled).Atoms)
        {
            double planned = plan.Atoms.Where(other => other.Kind == CauseKind.Unmodelled && other.Condition == atom.Condition).Sum(other => other.Weight);
            Assert.Equal(atom.Weight / belief.Total, planned, 1e-4);
        }
    }

    // A part of the mower, or a setting, that was no cure made nothing new: nobody asks again what was answered.
    [Theory]
    [InlineData(StepKind.ServiceDrive)]
    [InlineData(StepKind.RecodeStation)]
    [InlineData(StepKind.SwapEnds)]
    [InlineData(StepKind.CleanContacts)]
    public void What_did_not_help_renews_no_question(StepKind repair)
    {
        Observation[] before =
        [
            new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.7), new Observation.MowerStart(StartPlace.AtWire, StartOutcome.Runs),
            new Observation.MowerReach(8, true), new Observation.FollowWire(FollowOutcome.Wavering), new Observation.SubstituteMower(true), new Observation.ChargeCheck(true),
        ];
        Advice advice = DiagnosisScene.Advise(Yard, [.. before, new Observation.RepairDone(repair, null, null, null, null), new Observation.MowerCheck(false)]);

        Assert.NotEmpty(advice.Next);
        Assert.DoesNotContain(advice.Next, step => before.Any(seen => seen.Step == step.Step.Kind && step.Step.Place is null or StartPlace.AtWire));
    }

    [Fact]
    public void A_new_supply_renews_the_lamp_though_the_mower_does_the_same()
    {
        bool WasSeen(StepKind repair) => new CaseHistory(DiagnosisScene.Case(
            Yard, new Observation.StationLamp(LampState.Off), new Observation.RepairDone(repair, null, null, null, null), new Observation.MowerCheck(false))).LampWasSeen;

        Assert.False(WasSeen(StepKind.ReplaceSupply));
        Assert.True(WasSeen(StepKind.ServiceDrive));
    }

    // That nothing is wrong with a mower that does not mow is no oddness that persists: each repair that did not help says so again, until it is too little to show.
    [Fact]
    public void Nothing_wrong_is_believed_less_with_every_repair_that_did_not_help()
    {
        List<Observation> seen = [new Observation.StationLamp(LampState.Alarm), DiagnosisScene.Loop(null), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, "damaged"), new Observation.MowerCheck(false)];
        double before = DiagnosisScene.Advise(Yard, [.. seen]).Probability(CauseKind.None);
        foreach (StepKind repair in new[] { StepKind.SwapEnds, StepKind.RecodeStation })
        {
            seen.AddRange([new Observation.RepairDone(repair, null, null, null, null), new Observation.MowerCheck(false)]);
            double after = DiagnosisScene.Advise(Yard, [.. seen]).Probability(CauseKind.None);
            Assert.True(after <= before / 2, $"{repair}: {before} then {after}");
            before = after;
        }
    }

    // A contact that came and went is mended, and the mower has been flat as well.
    [Fact]
    public void Behind_a_mended_contact_that_came_and_went_another_cause_may_stand()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, DiagnosisScene.Loop(null), DiagnosisScene.Loop(1.7), DiagnosisScene.Loop(null), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, "damaged"),
            new Observation.MowerCheck(false), new Observation.ChargeCheck(false), new Observation.StationLamp(LampState.Normal));

        Assert.Equal(new Cause(CauseKind.Charging), advice.Causes[0].Cause);
    }

    [Fact]
    public void There_is_always_a_next_step_until_the_mower_runs()
    {
        Observation Done(StepKind repair) => new Observation.RepairDone(repair, null, null, null, null);
        List<Observation> seen = [new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.7)];
        foreach (StepKind repair in new[] { StepKind.AskMaker, StepKind.RenewLoop, StepKind.ServiceDrive, StepKind.ServiceReceiver, StepKind.ReplaceStation, StepKind.ReplaceSupply, StepKind.ReplaceBattery, StepKind.RelayLayout })
        {
            seen.AddRange([Done(repair), new Observation.MowerCheck(false)]);
            Assert.NotEmpty(DiagnosisScene.Advise(Yard, [.. seen]).Next);
        }
    }

    // Behind a mended break too a mower that nobody can start is flat or locked, not one with a bad drive.
    [Fact]
    public void A_mower_that_cannot_be_started_behind_a_mended_break_is_flat_or_locked()
    {
        Advice advice = DiagnosisScene.Advise(
            Yard, new Observation.StationLamp(LampState.Alarm), DiagnosisScene.Loop(null), new Observation.RepairDone(StepKind.RemakeTerminals, null, null, null, "damaged"),
            new Observation.MowerCheck(false), DiagnosisScene.Loop(1.7), new Observation.StationLamp(LampState.Normal), new Observation.NotDone(new(StepKind.MowerStart) { By = Person.Technician }));

        double stands = advice.Probability(CauseKind.Charging) + advice.Probability(CauseKind.Unmodelled);
        Assert.True(stands > 3 * (advice.Probability(CauseKind.Drive) + advice.Probability(CauseKind.Receiver)), $"{stands}");
    }
}
