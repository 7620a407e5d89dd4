using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Answers that part causes which look alike: swapped ends from leaks, a contact that comes and goes from a break, a layout from anything else,
/// a tired supply from a dead station.</summary>
public sealed class WhatPartsCausesTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(10, 12, new Joint(14, JointStyle.Twisted));

    private static readonly Yard Fenced = Yard with { Metal = [new("fence", new([new(10.4, 1), new(10.4, 11)]), 200)] };

    private static readonly double[] NeedlesAt = [29.6, 17.9, 11.3, 10.1, 12.4];

    // The mower takes the outside for the lawn: it crosses wherever it is tried, and hears the wire as far as ever.
    [Fact]
    public void Crossing_everywhere_of_a_mower_that_hears_well_is_swapped_ends_rather_than_leaks()
    {
        double Odds(params Observation[] more)
        {
            Advice advice = DiagnosisScene.Advise(Fenced, [new Observation.StationLamp(LampState.Normal), .. more]);
            return advice.Probability(CauseKind.EndsSwapped) / advice.Probability(CauseKind.LeakPair);
        }

        Observation hears = new Observation.MowerReach(4, true), outside = new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Outside);
        double before = Odds(hears, outside), fence = Odds(hears, outside, new Observation.WireCrossing(true, 16, true)), hedge = Odds(hears, outside, new Observation.WireCrossing(true, 40, false));

        Assert.True(before > 1, $"{before}");
        Assert.InRange(fence / before, 0.4, 1.2);
        Assert.InRange(hedge / before, 2, 12);
    }

    [Fact]
    public void A_capacitance_that_parts_the_wire_does_not_acquit_a_contact_that_was_open_meanwhile()
    {
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal), new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.Runs), new Observation.StationLamp(LampState.Alarm) { By = Person.Technician },
            DiagnosisScene.Loop(8e6) with { By = Person.Technician },
        ];
        double Odds(params Observation[] more)
        {
            Advice advice = DiagnosisScene.Advise(Yard, [.. seen, .. more]);
            return advice.Probability(CauseKind.Unsteady) / advice.Probability(CauseKind.Open);
        }

        double before = Odds(), parted = Odds(new Observation.EndCapacitance(11e-9 * 14 / 44, 11e-9 * 30 / 44)), whole = Odds(new Observation.EndCapacitance(11e-9, 11e-9));
        Assert.InRange(parted / before, 0.3, 1.5);
        Assert.True(whole > 3 * before, $"{before} then {whole}");
    }

    // Whatever else is wrong, the healthy loop once covered the lawn: a mower that hears in the middle has no layout that is too wide.
    [Fact]
    public void A_mower_that_covers_the_lawn_has_no_layout_that_is_too_wide()
    {
        Yard wide = DiagnosisScene.Rectangle(19, 24);
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(1.8), new Observation.SubstituteMower(false)];
        double none = DiagnosisScene.Advise(wide, seen).Probability(CauseKind.Layout);
        double covers = DiagnosisScene.Advise(wide, [.. seen, new Observation.MowerReach(9, true)]).Probability(CauseKind.Layout);
        double falls = DiagnosisScene.Advise(wide, [.. seen, new Observation.MowerReach(4.5, false)]).Probability(CauseKind.Layout);

        Assert.True(covers < none / 3 && falls > 3 * none, $"{none} {covers} {falls}");
    }

    [Fact]
    public void A_supply_that_reads_well_alone_and_sags_under_load_is_the_supply()
    {
        Observation lamp = new Observation.StationLamp(LampState.Off), outlet = new Observation.OutletCheck(true), alone = new Observation.SupplyVoltage(28.6, 28), loaded = new Observation.SupplyVoltage(9, 28, true);
        Advice before = DiagnosisScene.Advise(Yard, lamp, outlet, alone), after = DiagnosisScene.Advise(Yard, lamp, outlet, alone, loaded);

        Assert.True(before.Probability(CauseKind.Supply) is > 0.05 and < 0.5, $"{before.Probability(CauseKind.Supply)}");
        double supply = after.Causes.Where(cause => cause.Cause.Includes(CauseKind.Supply)).Sum(cause => cause.Probability);
        Assert.True(supply > 0.8 && after.Causes[0].Cause == new Cause(CauseKind.Supply), $"{supply}, {after.Causes[0]}");
        Assert.DoesNotContain(before.Next.Take(1), step => step.Step.Kind == StepKind.ReplaceStation);
    }

    [Fact]
    public void Leaks_come_out_behind_a_mended_supply()
    {
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Off), new Observation.OutletCheck(true), new Observation.SupplyVoltage(5.8, 28, true), new Observation.RepairDone(StepKind.ReplaceSupply, null, null, null, null),
            new Observation.MowerCheck(false), new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(0.9), new Observation.WireCrossing(true, 16, true), new Observation.EarthResistance(2400),
        ];
        Advice advice = DiagnosisScene.Advise(Fenced, seen);

        Assert.Equal(new Cause(CauseKind.LeakPair), advice.Causes.MaxBy(cause => cause.Probability)!.Cause);
    }

    // A mower that runs on a test loop, over a wire that reads well, was heard badly by somebody: a technician who stands there looks for himself, once.
    [Fact]
    public void An_owners_answer_that_fits_nothing_is_asked_again_on_site_once()
    {
        Yard yard = DiagnosisScene.Rectangle(32, 32, new Joint(20, JointStyle.Gel));
        Observation start = new Observation.MowerStart(StartPlace.AtWire, StartOutcome.NoSignal) { By = Person.Owner };
        Observation Done(StepKind repair) => new Observation.RepairDone(repair, null, null, null, repair == StepKind.RemakeTerminals ? "nothing" : null) { By = Person.Technician };
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal) { By = Person.Owner }, new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal), start, DiagnosisScene.Loop(2.5), new Observation.SubstituteLoop(true) { By = Person.Technician }, new Observation.EarthResistance(null),
            Done(StepKind.CleanContacts), Done(StepKind.RecodeStation), new Observation.MowerCheck(false), Done(StepKind.RemakeTerminals), Done(StepKind.AskMaker), new Observation.MowerCheck(false),
        ];
        string Again(params Observation[] all) => string.Join("; ", Advisor.Advise(
            DiagnosisScene.Case(yard, all) with { Complaint = "comes halfway and turns", Can = new() { Without = StepSet.Of([StepKind.SubstituteMower]) } }, CausePriors.Default, TestContext.Current.CancellationToken).Next
            .Where(step => step.Reason.AsksAgain == AskedAgain.DoesNotFit).Select(step => $"{step.Step.Kind} {step.Step.Place} {step.Step.By}"));

        Assert.Equal("MowerStart AtWire Technician", Again(seen));
        Assert.Equal("", Again([.. seen, start with { By = Person.Technician }]));
        Assert.Equal("", Again([seen[0], start, DiagnosisScene.Loop(2.5)]));
    }

    // What an owner heard on the telephone was another moment; before a part is bought somebody looks whether it is still so.
    [Fact]
    public void What_was_bad_and_may_have_changed_is_looked_at_again_on_site_once_and_why_says_so()
    {
        Observation at(StartPlace place) => new Observation.MowerStart(place, StartOutcome.NoSignal) { By = Person.Owner };
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal) { By = Person.Owner }, at(StartPlace.MidLawn), at(StartPlace.AtWire),
            DiagnosisScene.Loop(2.4) with { By = Person.Technician }, new Observation.SubstituteMower(true) { By = Person.Technician },
        ];
        Advice Next(params Observation[] all) => DiagnosisScene.Advise(DiagnosisScene.Rectangle(24, 36, new Joint(40, JointStyle.Unknown), new Joint(80, JointStyle.Twisted)), all);
        Advice first = Next(seen), second = Next([.. seen, seen[2] with { By = Person.Technician }]);

        Assert.Equal((StepKind.MowerStart, Person.Technician, AskedAgain.MayHaveChanged), (first.Next[0].Step.Kind, first.Next[0].Step.By, first.Next[0].Reason.AsksAgain));
        Assert.DoesNotContain(second.Next, step => step.Step is { Kind: StepKind.MowerStart, Place: StartPlace.AtWire });
        Assert.True(Next([.. seen, new Observation.MowerStart(StartPlace.AtWire, StartOutcome.Runs) { By = Person.Technician }]).Probability(CauseKind.Unsteady) > 3 * first.Probability(CauseKind.Unsteady));
    }

    // A break that lets a tone pass lets it pass everywhere beyond: what the first tone said the second hardly says again.
    [Fact]
    public void Tones_beyond_a_wet_break_are_of_one_break()
    {
        CaseEvidence.Item Strong(double at) => new(new Observation.ToneTrace(at, WireEnd.A, ToneStrength.Strong), 0, 0, 1);
        Place place = new(PlaceKind.Span, 10, 10.5), none = new(PlaceKind.Span, 90, 90.5);
        double Against(params CaseEvidence.Item[] tones) => PlaceTestModel.ToneLikelihood(tones, CauseKind.Open, none, true) / PlaceTestModel.ToneLikelihood(tones, CauseKind.Open, place, true);

        double one = Against(Strong(20)), four = Against(Strong(20), Strong(30), Strong(40), Strong(50));
        Assert.InRange(one, 3, 8);
        Assert.InRange(four, one, 12);
        Assert.InRange(Against([.. Enumerable.Range(0, 4).Select(i => new CaseEvidence.Item(new Observation.ToneTrace(60 + i, WireEnd.A, ToneStrength.None), 0, 0, 1))]), 0, 0.05);
    }

    // Half a dozen needles through a wire that somebody opens and closes: every weight stays zero or more.
    [Fact]
    public void Many_readings_over_a_contact_leave_no_weight_below_zero()
    {
        Observation[] seen =
        [
            new Observation.StationLamp(LampState.Normal), new Observation.MowerReach(5.6, false), DiagnosisScene.Loop(11.2) with { By = Person.Technician }, new Observation.AcRatio(0.9, 0.1, 1000),
            .. NeedlesAt.Select(at => new Observation.PinProbe(at, at > 10.7 ? 10.6 : 0.5, at > 10.7 ? 0.7 : 10.8, 0.4)),
        ];
        Belief belief = DiagnosisScene.Believe(Yard, [], seen);

        Assert.All(belief.Faults, fault => Assert.True(fault.Weight >= 0 && fault.Atoms.All(atom => atom.Weight >= 0), $"{fault.Cause}: {fault.Weight}"));
    }
}
