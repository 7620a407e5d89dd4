using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The owner's words as evidence.</summary>
public sealed class ComplaintTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(20, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel)) with
    {
        Metal = [new("fence", new([new(5, -0.8), new(15, -0.8)]), 40)],
    };

    private static Advice Advise(string complaint, params Observation[] observations) => Advisor.Advise(
        DiagnosisScene.Case(Yard, observations) with { Complaint = complaint }, CausePriors.Default, TestContext.Current.CancellationToken);

    [Theory]
    [InlineData("the station is dark", CauseKind.Supply)]
    [InlineData("Die Station leuchtet nicht", CauseKind.Supply)]
    [InlineData("the mower says no signal", CauseKind.Open)]
    [InlineData("kein Signal", CauseKind.Open)]
    [InlineData("stops in the middle of the lawn", CauseKind.SeriesResistance)]
    [InlineData("kehrt zu früh um", CauseKind.Layout)]
    [InlineData("climbs over the wire", CauseKind.LeakPair)]
    [InlineData("fährt über den Draht", CauseKind.LeakPair)]
    [InlineData("it thinks it is outside", CauseKind.EndsSwapped)]
    [InlineData("turns round near the neighbour's", CauseKind.Crosstalk)]
    [InlineData("goes in circles", CauseKind.Drive)]
    [InlineData("dreht sich im Kreis", CauseKind.Drive)]
    public void Words_speak_for_what_brings_them(string complaint, CauseKind cause)
    {
        Advice silent = Advise(""), told = Advise(complaint);

        Assert.True(told.Probability(cause) > silent.Probability(cause), $"{told.Probability(cause)}, without the words {silent.Probability(cause)}");
        CauseBits bits = told.ComplaintBits.Single(bits => bits.Cause == new Cause(cause));
        Assert.True(bits.Bits > 0);
    }

    // Where it drove to is no neighbour's mower.
    [Theory]
    [InlineData("ran through next door's vegetables", "since next door's mower came")]
    [InlineData("rollt in Nachbars Rabatte über die Kante", "seit Nachbars Mäher da ist")]
    [InlineData("found it in the neighbours' pond, it went straight into it", "the neighbours' new mower is the trouble, they say")]
    public void Ground_next_door_is_no_mower_next_door(string ground, string mower)
    {
        Advice silent = Advise(""), there = Advise(ground), theirs = Advise(mower);

        Assert.True(there.Probability(CauseKind.LeakPair) > silent.Probability(CauseKind.LeakPair) && there.Probability(CauseKind.Crosstalk) < 2 * silent.Probability(CauseKind.Crosstalk), ground);
        Assert.True(theirs.Probability(CauseKind.Crosstalk) > 3 * silent.Probability(CauseKind.Crosstalk), mower);
    }

    // What words say beside readings is weighed on one row of places, pairs left out of both sides: else pairs seem to speak against every single cause.
    [Theory]
    [InlineData("no signal since the bed was dug over", null, CauseKind.Open)]
    [InlineData("turns back before the middle of the lawn", 310.0, CauseKind.SeriesResistance)]
    public void Words_speak_for_the_same_beside_a_reading(string complaint, double? loopOhms, CauseKind cause)
    {
        Advice told = Advise(complaint, DiagnosisScene.Loop(loopOhms), new Observation.MowerStart(StartPlace.AtWire, loopOhms is null ? StartOutcome.NoSignal : StartOutcome.Runs),
            DiagnosisScene.Loop(loopOhms));

        Assert.True(told.ComplaintBits.Single(bits => bits.Cause == new Cause(cause)).Bits > 0);
    }

    [Theory]
    [InlineData("")]
    [InlineData("it does not mow any more")]
    [InlineData("mäht nicht")]
    public void Words_that_fit_nothing_change_nothing(string complaint)
    {
        Observation[] seen = [new Observation.StationLamp(LampState.Normal), DiagnosisScene.Loop(310)];
        Advice told = Advise(complaint, seen);

        Assert.Equal(DiagnosisScene.Numbers(Advise("", seen)), DiagnosisScene.Numbers(told));
        Assert.Empty(told.ComplaintBits);
    }

    [Fact]
    public void Reading_outweighs_words_and_does_not_contradict_them()
    {
        Advice advice = Advise("goes in circles", DiagnosisScene.Loop(310));

        Assert.Equal(CauseKind.SeriesResistance, advice.Causes[0].Cause.First);
        Assert.Null(advice.Disagreement);
    }
}
