using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial.Tests;

/// <summary>One small yard with a chosen fault: 20 m × 30 m, loop of 100 m from the south-west corner, joints at 20 and 60 m,
/// 1 mm² copper at 20 °C, an exact world where nobody errs.</summary>
internal static class Scene
{
    public static readonly Yard Yard = new()
    {
        Name = "Thistle End",
        Lawn = new([[new(0, 0), new(20, 0), new(20, 30), new(0, 30)]], []),
        Loop = new()
        {
            Path = new([new(0, 0), new(20, 0), new(20, 30), new(0, 30), new(0, 0)]),
            Conductor = new() { AreaSquareMetres = 1e-6 },
            Joints = [new(20, JointStyle.Twisted), new(60, JointStyle.Gel)],
        },
        Soil = new() { TemperatureCelsius = 20 },
        Metal = [new("fence", new([new(20.5, 2), new(20.5, 28)]), 40)],
    };

    public static WorldHabits Habits { get; } = WorldHabits.Draw(WorldStyle.Plain, Yard, new(1)) with
    {
        ToneRight = 1,
        OwnerRight = 1,
        TechnicianRight = 1,
        LookFalseAlarm = 0,
        Drift = 0,
        CapacitanceError = 0,
        PlaceDeviationMetres = 0,
        MeterPercent = 0,
        WireOhmsPerMetre = 0.01724,
        LengthFactor = 1,
        JointOhms = 0,
        InsulationOhms = 1e7,
        ReachConstantOhmMetres = 4581,
        SourceOhms = 107,
        AlarmOhms = 20_000,
        FlickerOhms = 20_000,
        CapacitanceFaradPerMetre = 250e-12,
        VelocityFactor = 0.6,
        EitherEnds = 1,
    };

    public static TrialYard With(params Fault[] faults) => new(0, WorldStyle.Plain, new() { Yard = Yard, Can = AllAtHand }, faults, Habits, new(Yard), new(7));

    public static TrialWorld World(params Fault[] faults) => new(With(faults));

    public static Fault Series(double at, double ohms, bool joint = false) => new(CauseKind.SeriesResistance) { AtMetres = at, Ohms = ohms, AtJoint = joint };

    public static Fault Break(double at) => new(CauseKind.Open) { AtMetres = at, Ohms = double.PositiveInfinity };

    public static Step Owner(StepKind kind) => new(kind) { By = Person.Owner };

    private static Capabilities AllAtHand => new()
    {
        TechnicianInstruments = Instruments.Multimeter | Instruments.CapacitanceMeter | Instruments.Battery | Instruments.ToneSender
            | Instruments.InsulationTester | Instruments.Reflectometer,
        OwnerInstruments = Instruments.Multimeter,
    };
}
