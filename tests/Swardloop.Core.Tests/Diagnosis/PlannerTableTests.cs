using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>What plans are made of: each test's outcomes and their probabilities.</summary>
public sealed class PlannerTableTests
{
    private static readonly Yard Yard = DiagnosisScene.Rectangle(30, 20, new Joint(20, JointStyle.Twisted), new Joint(60, JointStyle.Gel)) with
    {
        Metal = [new("fence", new([new(5, -0.8), new(25, -0.8)]), 40)],
        Guides = [new("G1", 60, new([new(0, 0), new(20, 20)]))],
    };

    private static readonly Observation[][] Cases =
    [
        [],
        [new Observation.MowerStart(StartPlace.MidLawn, StartOutcome.NoSignal)],
        [DiagnosisScene.Loop(410)],
        [DiagnosisScene.Loop(null)],
        [new Observation.WireCrossing(true, null, true)],
        [DiagnosisScene.Loop(410), new Observation.Look(0, 60, true)],
        [DiagnosisScene.Loop(2.1), new Observation.GuideResistance("G1", null, null, 0.3, MeterAccuracy.Plain)],
        [new Observation.WireCrossing(true, null, true), new Observation.RepairDone(StepKind.MendSpan, null, 8, 12, "damaged insulation"), new Observation.MowerCheck(false)],
    ];

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    [InlineData(7)]
    public void Outcomes_of_every_test_add_up_to_one_under_every_hypothesis(int index)
    {
        Observation[] seen = Cases[index];
        ServiceCase @case = DiagnosisScene.Case(Yard, seen) with
        {
            Can = new() { TechnicianInstruments = DiagnosisScene.EveryInstrument, OwnerInstruments = Instruments.Multimeter },
        };
        YardPhysics physics = new(Yard);
        Planner planner = new(@case, new(@case), physics, new Beliefs(@case, physics, CausePriors.Default).All);
        Planner.Evaluated[] tests = [.. planner.Best(100).Where(found => found.Table.Length > 0)];

        Assert.True(tests.Length > 5);
        Assert.All(tests, test =>
        {
            for (int i = 0; i < test.Table[0].Length; i++)
            {
                Assert.Equal(1, test.Table.Sum(row => row[i]), 1e-6);
                Assert.All(test.Table, row => Assert.InRange(row[i], -1e-12, 1 + 1e-12));
            }
        });
    }
}
