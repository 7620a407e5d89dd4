using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>A contact that comes and goes, from moment to moment or with the weather.</summary>
public sealed class ComesAndGoesTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel));

    private static Observation In(Conditions conditions, Observation seen) => seen with { Conditions = conditions };

    [Fact]
    public void Sound_and_open_and_sound_again_is_a_contact_that_comes_and_goes()
    {
        Advice advice = DiagnosisScene.Advise(Yard, new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.7), DiagnosisScene.Loop(null), DiagnosisScene.Loop(1.7));

        Assert.InRange(advice.Probability(CauseKind.Unsteady), 0.5, 1);
        Assert.True(advice.Probability(CauseKind.Drive) + advice.Probability(CauseKind.Receiver) < 0.15);
    }

    // Copper does not notice rain: both readings are true.
    [Fact]
    public void A_loop_that_reads_well_when_dry_and_high_when_wet_is_one_too()
    {
        ServiceCase @case = DiagnosisScene.Case(
            Yard, new Observation.StationLamp(LampState.Normal), In(Conditions.Dry, DiagnosisScene.Loop(1.7)), In(Conditions.Wet, DiagnosisScene.Loop(140))) with
        { OnSite = true };
        Advice advice = Advisor.Advise(@case, CausePriors.Default, TestContext.Current.CancellationToken);

        Assert.InRange(advice.Probability(CauseKind.Unsteady), 0.75, 1);
        Assert.DoesNotContain(advice.Next, step => step.Step.Kind is StepKind.RelayLayout or StepKind.RenewLoop);
        Assert.Contains(
            advice.Next.Take(5),
            step => step.Step.Kind is StepKind.AcRatio or StepKind.JointDrop or StepKind.Wiggle or StepKind.TerminalLook or StepKind.SplitResistance or StepKind.PinProbe or StepKind.RemakeJoint);
    }

    // A visit in which everything reads well meets one state of the contact, not as many as there were readings.
    [Fact]
    public void A_sound_visit_acquits_it_once()
    {
        Observation[] one = [In(Conditions.Dry, DiagnosisScene.Loop(1.7))];
        Observation[] many =
        [
            .. one, In(Conditions.Dry, new Observation.StationLamp(LampState.Normal)), In(Conditions.Dry, new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs)),
            In(Conditions.Dry, new Observation.PinProbe(40, 1, 1, 0.3)),
        ];

        double Odds(Observation[] seen)
        {
            Belief belief = DiagnosisScene.Believe(Yard, [], seen);
            return belief.Group(CauseKind.Unsteady).Weight / belief.Group(CauseKind.None).Weight;
        }

        // Against "nothing is wrong", which answers each of them as a made contact does.
        Assert.InRange(Odds(many) / Odds(one), 0.5, 1.1);
    }

    [Fact]
    public void Where_it_was_last_met_made_it_mostly_is_made_still()
    {
        Belief sound = DiagnosisScene.Believe(Yard, [], In(Conditions.Dry, DiagnosisScene.Loop(1.7)));
        Belief open = DiagnosisScene.Believe(Yard, [], In(Conditions.Dry, DiagnosisScene.Loop(1.7)), In(Conditions.Wet, DiagnosisScene.Loop(null)));

        Assert.True(sound.ContactIsOpen(Person.Technician) < 0.35, $"{sound.ContactIsOpen(Person.Technician)}");
        Assert.True(open.ContactIsOpen(Person.Technician) > 0.6, $"{open.ContactIsOpen(Person.Technician)}");
        Assert.Equal(0.45, open.ContactIsOpen(Person.Owner), 1e-12);
    }

    // The mower runs just now; what was told of it says that it will not for long.
    [Fact]
    public void A_mower_that_runs_just_now_ends_no_case_of_a_contact_that_is_likely_there_still()
    {
        Observation[] seen =
        [
            DiagnosisScene.Loop(1.7), DiagnosisScene.Loop(null), DiagnosisScene.Loop(1.7), DiagnosisScene.Loop(null),
            new Observation.RepairDone(StepKind.ServiceReceiver, null, null, null, null), new Observation.MowerCheck(true),
        ];

        Advice advice = DiagnosisScene.Advise(Yard, seen);
        Assert.False(advice.Finished);
        Assert.NotEmpty(advice.Next);

        Observation[] mended = [.. seen[..^2], new Observation.Wiggle(20, true), new Observation.RepairDone(StepKind.RemakeJoint, 20, null, null, "corroded"), new Observation.MowerCheck(true)];
        Assert.True(DiagnosisScene.Advise(Yard, mended).Finished);
    }

    [Theory]
    [InlineData(1.7, 1.8, 1)]
    [InlineData(1.7, 40.0, 2)]
    [InlineData(1.7, null, 2)]
    public void Readings_that_no_meter_explains_are_not_averaged(double first, double? second, double expectedWeight)
    {
        double[] weights = ReadingsApart.Weights([(DiagnosisScene.Loop(first), 1), (DiagnosisScene.Loop(second), 1)]);

        // Two of one value count as one and a quarter; two that differ count as two.
        Assert.Equal(expectedWeight == 1 ? 1.25 : 2, weights.Sum(), 1e-12);
    }

    [Theory]
    [InlineData("mal geht er, mal nicht, vor allem nach Regen")]
    [InlineData("some days it mows, some days it stands and says no signal, then it goes again by itself")]
    [InlineData("every time it rains for a day the mower gives up")]
    public void Words_of_coming_and_going_speak_for_it(string complaint)
    {
        double With(string words) => Advisor.Advise(
            DiagnosisScene.Case(Yard, DiagnosisScene.Loop(1.7)) with { Complaint = words }, CausePriors.Default, TestContext.Current.CancellationToken).Probability(CauseKind.Unsteady);

        Assert.True(With(complaint) > 1.5 * With(""), $"{With(complaint)} and {With("")}");
    }

    // A contact may come and go beside whatever was mended: nobody digs for it while the mower runs and coming again costs less.
    [Fact]
    public void A_mower_that_runs_is_left_alone_where_looking_on_costs_more_than_coming_again()
    {
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs) { By = Person.Owner }, DiagnosisScene.Loop(1.7),
            new Observation.MowerStart(StartPlace.AtWire, StartOutcome.Outside) { By = Person.Owner }, new Observation.ChargeCheck(true) { By = Person.Owner },
            new Observation.RepairDone(StepKind.SwapEnds, null, null, null, null) { By = Person.Owner }, new Observation.MowerCheck(true) { By = Person.Owner },
        ];
        const double ComingAgain = 45 + 60;
        Observation reach = new Observation.MowerReach(9, true) { By = Person.Owner }, follow = new Observation.FollowWire(FollowOutcome.Wavering) { By = Person.Owner };
        foreach (Observation[] more in (Observation[][])[[], [reach], [reach, follow], [follow], [reach, follow, new Observation.TerminalLook(TerminalState.Corroded) { By = Person.Owner }]])
        {
            Advice advice = DiagnosisScene.Advise(Yard, [.. seen[..^2], .. more, .. seen[^2..]]);
            double left = advice.Probability(CauseKind.Unsteady);
            Assert.True(
                advice.Finished ? advice.Next.Count == 0 && left < 0.5 : left > 0.5 || advice.Next[0].CostNow <= left * ComingAgain,
                $"{left}: {string.Join("; ", advice.Next.Take(3).Select(step => $"{step.Step.Kind} {step.CostNow}"))}");
        }
    }

    // Everything reads well: whether anything is wrong the mower itself says, before a part is bought; once.
    [Fact]
    public void Where_nothing_seems_wrong_the_mower_is_let_mow_before_anything_is_bought()
    {
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs), new Observation.MowerReach(9, true), new Observation.FollowWire(FollowOutcome.Steady),
            DiagnosisScene.Loop(1.7) with { By = Person.Technician }, new Observation.EarthResistance(null), new Observation.ChargeCheck(true), new Observation.SubstituteMower(true) { By = Person.Technician },
        ];
        Advice Checked(params Observation[] all) => Advisor.Advise(DiagnosisScene.Case(Yard, all) with { Complaint = "seems fine, please check everything" }, CausePriors.Default, TestContext.Current.CancellationToken);
        Advice sound = Checked(seen), same = Checked([.. seen, new Observation.MowerCheck(false) { By = Person.Technician }]);

        Assert.True(sound.Probability(CauseKind.None) > 0.3 && sound.Next[0].Step.Kind == StepKind.MowerCheck, $"{sound.Probability(CauseKind.None)}: {sound.Next[0].Step.Kind}");
        Assert.DoesNotContain(same.Next, step => step.Step.Kind == StepKind.MowerCheck);
    }
}
