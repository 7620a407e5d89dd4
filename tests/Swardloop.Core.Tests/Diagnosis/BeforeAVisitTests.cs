using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>Nobody sets out before the owner was asked what he can see.</summary>
public sealed class BeforeAVisitTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(90, 80, new Joint(40, JointStyle.Unknown), new Joint(210, JointStyle.Unknown));

    // A visit's earth ratio tells much about the wire; a dead outlet makes the whole visit a waste.
    [Theory]
    [InlineData("the mower does not start", null)]
    [InlineData("it does not mow any more", null)]
    [InlineData("no signal", StartPlace.AtWire)]
    [InlineData("no signal", StartPlace.MidLawn)]
    public void An_owner_is_asked_before_a_technician_sets_out(string complaint, StartPlace? tried)
    {
        Observation[] seen = tried is { } place ? [new Observation.MowerStart(place, StartOutcome.NoSignal) { By = Person.Owner }] : [];
        ServiceCase serviceCase = DiagnosisScene.Case(Yard, seen) with
        {
            Complaint = complaint,
            Can = new() { TechnicianInstruments = DiagnosisScene.EveryInstrument },
        };

        Advice advice = Advisor.Advise(serviceCase, CausePriors.Default, TestContext.Current.CancellationToken);

        Assert.Equal(Person.Owner, advice.Next[0].Step.By);
    }
}
