using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>A way the simulated world may be: every band is drawn from anew for each yard, so that nothing can be tuned to one world.
/// All figures are this trial's own guesses; common practice, no source, where not said otherwise.</summary>
/// <param name="Name">What it is called on the command line.</param>
public sealed record WorldStyle(string Name)
{
    /// <summary>How often each single cause is met, as weights.</summary>
    public IReadOnlyDictionary<CauseKind, double> CauseWeights { get; init; } = PlainWeights;

    /// <summary>Share of yards with two faults.</summary>
    public double PairShare { get; init; } = 0.065;

    /// <summary>Share of series faults that sit in a joint or terminal (for breaks, half of it).</summary>
    public Band JointFaultShare { get; init; } = new(0.5, 0.75);

    /// <summary>Power to which the file's risk weights are true: 1 is exactly, 0 not at all.</summary>
    public Band RiskTruth { get; init; } = new(0.6, 1.3);

    /// <summary>Longest and shortest loop (m).</summary>
    public Band LoopMetres { get; init; } = new(60, 400);

    /// <summary>Wire cross-sections met (mm²).</summary>
    public IReadOnlyList<(double AreaMm2, double Weight)> Wires { get; init; } =
        [(0.5, 1), (0.75, 2), (1, 2), (1.5, 3), (2.5, 1)];

    /// <summary>Share of yards with metal beside the wire.</summary>
    public double MetalShare { get; init; } = 0.35;

    /// <summary>Share of yards with a neighbour's loop.</summary>
    public double NeighbourShare { get; init; } = 0.3;

    /// <summary>Share of technicians with a reflectometer, and with an insulation tester.</summary>
    public double RareInstrumentShare { get; init; } = 0.15;

    /// <summary>Chance that a tone is heard as it should be.</summary>
    public Band ToneRight { get; init; } = new(0.85, 0.97);

    /// <summary>Chance that a fault shows at all to someone who looks.</summary>
    public Band FaultShows { get; init; } = new(0.25, 0.6);

    /// <summary>Chance that a sound stretch of 10 m looks damaged.</summary>
    public Band LookFalseAlarm { get; init; } = new(0, 0.02);

    /// <summary>Chance that an owner answers a question rightly.</summary>
    public Band OwnerRight { get; init; } = new(0.92, 0.99);

    /// <summary>Chance that a technician does.</summary>
    public Band TechnicianRight { get; init; } = new(0.97, 0.998);

    /// <summary>Loop resistance above which the lamp may flicker (Ω).</summary>
    public Band FlickerOhms { get; init; } = new(500, 8000);

    /// <summary>Chance that it then does.</summary>
    public Band FlickerShows { get; init; } = new(0.4, 0.85);

    /// <summary>Meter's percent of reading.</summary>
    public Band MeterPercent { get; init; } = new(0.5, 1.2);

    /// <summary>Standard deviation of true reach constant and source resistance from the file's, as a share.</summary>
    public Band ProfileDeviation { get; init; } = new(0.04, 0.12);

    /// <summary>Standard deviation of the wire's resistance per metre from the nominal one, as a share.</summary>
    public Band WireDeviation { get; init; } = new(0.01, 0.03);

    /// <summary>Chance that a broken wire reads a finite resistance.</summary>
    public Band WetBreakShare { get; init; } = new(0.15, 0.45);

    /// <summary>Chance that a broken end also leaks to earth.</summary>
    public Band BreakLeaksShare { get; init; } = new(0, 0.4);

    /// <summary>How a corroded place wanders between readings, standard deviation as a share.</summary>
    public Band Drift { get; init; } = new(0, 0.03);

    /// <summary>Capacitance meter's error, standard deviation as a share.</summary>
    public Band CapacitanceError { get; init; } = new(0.008, 0.02);

    /// <summary>Velocity factor of the wire in its ground.</summary>
    public Band VelocityFactor { get; init; } = new(0.54, 0.66);

    /// <summary>Standard deviation of a place met in the garden (m).</summary>
    public Band PlaceDeviation { get; init; } = new(0.12, 0.2);

    /// <summary>Chance that a leaking pair beside metal is crossed (model 5: 0.8).</summary>
    public Band PairCrossed { get; init; } = new(0.72, 0.88);

    /// <summary>Chance that a sound wire is crossed (model 5: 0.02).</summary>
    public Band SoundCrossed { get; init; } = new(0.01, 0.03);

    /// <summary>Chance that mending one place of a leaking pair ends it ("usually").</summary>
    public Band EitherEnds { get; init; } = new(0.85, 0.97);

    private static IReadOnlyDictionary<CauseKind, double> PlainWeights { get; } = Weights();

    /// <summary>The plain world.</summary>
    public static WorldStyle Plain { get; } = new("plain");

    /// <summary>Every style, in a fixed order; a trial deals them out evenly.</summary>
    public static IReadOnlyList<WorldStyle> All { get; } =
    [
        Plain,
        new("joints")
        {
            JointFaultShare = new(0.8, 0.95), RiskTruth = new(0.3, 1), CauseWeights = Weights(series: 42, open: 14),
        },
        new("spades")
        {
            JointFaultShare = new(0.15, 0.35), RiskTruth = new(0.8, 1.6), CauseWeights = Weights(series: 20, open: 36),
            WetBreakShare = new(0.3, 0.6), BreakLeaksShare = new(0.2, 0.7),
        },
        new("vague")
        {
            ToneRight = new(0.72, 0.88), FaultShows = new(0.1, 0.35), LookFalseAlarm = new(0.01, 0.05), OwnerRight = new(0.82, 0.93),
            TechnicianRight = new(0.94, 0.98), MeterPercent = new(1, 2), ProfileDeviation = new(0.08, 0.16), WireDeviation = new(0.02, 0.05),
            Drift = new(0.02, 0.08), CapacitanceError = new(0.015, 0.03), PlaceDeviation = new(0.18, 0.25),
        },
        new("exact")
        {
            ToneRight = new(0.96, 1), FaultShows = new(0.5, 0.9), LookFalseAlarm = new(0, 0.003), OwnerRight = new(0.97, 1),
            TechnicianRight = new(0.995, 1), MeterPercent = new(0.3, 0.8), ProfileDeviation = new(0, 0.05), WireDeviation = new(0, 0.015),
            Drift = new(0, 0.005), CapacitanceError = new(0.005, 0.012), PlaceDeviation = new(0.08, 0.15), PairShare = 0.05,
        },
        new("fences")
        {
            MetalShare = 0.8, NeighbourShare = 0.6,
            CauseWeights = Weights(series: 24, open: 18, leakPair: 18, leak: 3, crosstalk: 9),
        },
        new("long")
        {
            LoopMetres = new(180, 400), Wires = [(0.5, 3), (0.75, 3), (1, 2), (1.5, 1)], RareInstrumentShare = 0.5, PairShare = 0.08,
        },
        new("indoors")
        {
            CauseWeights = Weights(noMains: 10, supply: 10, station: 8, swapped: 8, series: 22, open: 16, layout: 8, crosstalk: 6, receiver: 6, drive: 7),
        },
    ];

    private static Dictionary<CauseKind, double> Weights(
        double noMains = 5, double supply = 5, double station = 4, double swapped = 3.5, double series = 32, double open = 24,
        double leak = 1.5, double leakPair = 8, double layout = 5, double crosstalk = 4, double receiver = 3, double drive = 4) => new()
        {
            [CauseKind.NoMains] = noMains,
            [CauseKind.Supply] = supply,
            [CauseKind.Station] = station,
            [CauseKind.EndsSwapped] = swapped,
            [CauseKind.SeriesResistance] = series,
            [CauseKind.Open] = open,
            [CauseKind.Leak] = leak,
            [CauseKind.LeakPair] = leakPair,
            [CauseKind.Layout] = layout,
            [CauseKind.Crosstalk] = crosstalk,
            [CauseKind.Receiver] = receiver,
            [CauseKind.Drive] = drive,
        };
}
