using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Tests.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Tests.Advising;

/// <summary>A case on an example yard and a hand-made advice for it: the writers are tried without the inference.</summary>
internal static class SampleAdvice
{
    private static readonly Cause Series = new(CauseKind.SeriesResistance), Open = new(CauseKind.Open), Layout = new(CauseKind.Layout),
        Pair = new(CauseKind.SeriesResistance, CauseKind.Leak), Receiver = new(CauseKind.Receiver), Drive = new(CauseKind.Drive),
        Unknown = new(CauseKind.Unmodelled);

    public static ServiceCase Case { get; } = new()
    {
        Yard = ExampleYard("marram-reach"),
        Complaint = "turns back before the middle of the lawn",
        Observations =
        [
            new Observation.StationLamp(LampState.Normal) { By = Person.Owner },
            new Observation.MowerReach(1.9, AtLeast: false) { By = Person.Owner },
            new Observation.LoopResistance(338, 0.2, MeterAccuracy.Plain),
            new Observation.SplitResistance(172, 334, 3.2, 0.2),
        ],
    };

    public static Advice Advice { get; } = new()
    {
        Causes =
        [
            new(Series, 0.93), new(Pair, 0.04), new(Open, 0.0249), new(Layout, 0.005), new(Receiver, 0.00009), new(Drive, 0.00001 - 3e-8),
            new(Unknown, 3e-8),
        ],
        ExcessOhms = new(329.23456, 332.98765, 339),
        Location = new(Series, 84.5, 83.974, 85.2, 0.9),
        Density = [new(0, 84, 0.03), new(84, 85, 0.93), new(85, 301, 0.04)],
        Evidence =
        [
            new(0, [new(Series, -0.1), new(Open, -2.5)]),
            new(1, [new(Series, 1.4), new(Open, -0.5)]),
            new(2, [new(Series, 5.6543219), new(Open, 0.2), new(Layout, -5.25)]),
            new(3, [new(Series, 0.05)]),
        ],
        Next =
        [
            new(new Step(StepKind.SplitResistance) { AtMetres = 84.5 }, 12, 59, 71.204, new(0.62, [], 48, 6.25, 31.5)),
            new(new Step(StepKind.RemakeJoint) { AtMetres = 84.5 }, 12, 59, 74.6, new(0.62, [], null, null, 0)),
            new(new Step(StepKind.Look) { FromMetres = 95, ToMetres = 105, By = Person.Owner }, 6, 1.5, 80.123, new(0, [Series, Open], null, null, 0.1)),
        ],
    };

    public static Yard ExampleYard(string name) =>
        YardFile.Read(File.ReadAllBytes(Path.Combine(Examples.Repository, "examples", $"{name}.yard.json")), name).Value!.Yard;
}
