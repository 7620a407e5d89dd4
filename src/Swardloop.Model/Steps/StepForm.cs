using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Steps;

/// <summary>What an observation of one step holds in a case file. Where it stands is what the case file's reader takes.</summary>
/// <param name="Parameters">How it was made, or where.</param>
/// <param name="Outcomes">What came of it.</param>
public sealed record StepForm(IReadOnlyList<StepField> Parameters, IReadOnlyList<StepField> Outcomes)
{
    private static readonly StepField At = Place("atM", "where, along the wire from terminal A");
    private static readonly StepField From = Place("fromM", "start of the stretch, along the wire from terminal A");
    private static readonly StepField To = Place("toM", "end of the stretch, along the wire from terminal A");
    private static readonly StepField FromEnd = Word("from", "from which terminal", "A", "B");
    private static readonly StepField Lead = Number("leadOhms", "Ω", 0, 100, "resistance of the meter's leads") with { Required = false };
    private static readonly StepField Loop = Number("ohms", "Ω", 0, 1e9, "what the meter showed, leads included") with { MayBeOverRange = true };
    private static readonly StepField Meter = new("meter", StepFieldType.Meter, "the meter's limits of error") { Required = false };
    private static readonly StepField Found = new("found", StepFieldType.Text, "what was found") { Required = false };

    /// <summary>What a person types for the outcomes: the same, save where the file holds what is reckoned from the readings.</summary>
    public IReadOnlyList<StepField> Entered { get; init; } = Outcomes;

    /// <summary>The form of a step.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in the catalogue.</exception>
    public static StepForm Of(StepKind kind) => kind switch
    {
        StepKind.OutletCheck => Test(Value("another appliance in the outlet", "live", "dead")),
        StepKind.SupplyVoltage => new(
            [
                new("loaded", StepFieldType.Flag, "whether the station draws from it meanwhile; unplugged from the station when not said") { Required = false },
                Number("nominalVolts", "V", 0, 1000, "what the label says; above 0") with { Required = false },
            ],
            [Number("volts", "V", 0, 1000, "at the low-voltage plug")]),
        StepKind.StationLamp => Test(Value("what the lamp shows", "off", "normal", "flicker", "alarm")),
        StepKind.MowerStart => new(
            [Word("place", "where it was started; at the wire when not said", "at-wire", "mid-lawn") with { Required = false }],
            [Value("what it did", "runs", "no-signal", "outside")]),
        StepKind.MowerReach => Test(
            Number("distanceM", "m", 0, 1000, "from the nearest wire to where it turned back or stopped"),
            Word("bound", "whether it turned back there, or covered everything and would go at least that far; exact when not said", "exact", "at-least") with { Required = false }),
        StepKind.FollowWire => Test(Value("how it followed the wire home", "steady", "wavering", "lost")),
        StepKind.WireCrossing => new(
            [At with { Required = false }, new("nearMetal", StepFieldType.Flag, "whether metal is beside the wire there") { Required = false }],
            [Value("whether it minded the wire", "respected", "crossed")]),
        StepKind.LoopResistance => new(
            [Lead, Meter], [Loop]),
        StepKind.EarthResistance => Test(Loop with { Meaning = "from the loop to a stake, as the meter showed it" }),
        StepKind.Insulation => new(
            [Number("testVolts", "V", 0, 5000, "the tester's voltage; above 0")],
            [Number("megohms", "MΩ", 0, 1e9, "from the loop to a stake")]),
        StepKind.EarthRatio => Test(
            Number("voltsA", "V", 0, 1000, "from A to a stake, half the difference of the signed readings at both polarities, without sign"),
            Number("voltsB", "V", 0, 1000, "from B to a stake, half the difference of the signed readings at both polarities, without sign"))
            with
        { Entered = ReversedPair.Fields },
        StepKind.EndCapacitance => Test(
            Number("nanofaradA", "nF", 0, 1e6, "from end A to a stake"),
            Number("nanofaradB", "nF", 0, 1e6, "from end B to a stake")),
        StepKind.SplitResistance => new(
            [At, Lead],
            [
                Loop with { Name = "ohmsA", Meaning = "from the opening to A, lead included" },
                Loop with { Name = "ohmsB", Meaning = "from the opening to B, lead included" },
            ]),
        StepKind.Bypass => new([From, To], [Loop with { Meaning = "of the loop with the bypass in place" }]),
        StepKind.ToneTrace => new([At, FromEnd], [Value("how strong the tone is", "strong", "weak", "none")]),
        StepKind.Reflection => new(
            [FromEnd],
            [
                Number("delayNs", "ns", 0, 1e6, "there and back") with { Required = false },
                Word("kind", "what the echo shows", "open", "short", "none"),
            ]),
        StepKind.Look => new([From, To], [Value("what was seen", "damage", "nothing")]),
        StepKind.SubstituteLoop => Test(Value("inside the test loop", "runs", "no-signal")),
        StepKind.SubstituteMower => Test(Value("the other mower", "runs", "no-signal")),
        StepKind.NeighbourOff => Test(Value("with the neighbour's station off", "cured", "same")),
        StepKind.MowerCheck => Test(Value("after the repair", "runs", "same")),
        StepKind.AcRatio => new(
            [Number("hertz", "Hz", 0, 1e6, "frequency of the tone, 1000 when not said; above 0") with { Required = false }],
            [
                Number("voltsA", "V", 0, 1000, "alternating, from A to a stake"),
                Number("voltsB", "V", 0, 1000, "alternating, from B to a stake"),
            ]),
        StepKind.GuideResistance => new(
            [new("guide", StepFieldType.Text, "which guide wire, by its name in the yard; may be left out where there is one") { Required = false }, Lead, Meter],
            [
                Loop with { Name = "ohmsA", Meaning = "from A to the guide, leads included" },
                Loop with { Name = "ohmsB", Meaning = "from B to the guide, leads included" },
            ]),
        StepKind.JointDrop => new(
            [At],
            [
                Number("milliamps", "mA", 0, 10_000, "the current through the loop; above 0"),
                Number("millivolts", "mV", 0, 100_000, "across the joint, from wire to wire, without sign"),
            ]),
        StepKind.PinProbe => new(
            [At, Lead],
            [
                Loop with { Name = "ohmsA", Meaning = "from the needle to terminal A, lead included" },
                Loop with { Name = "ohmsB", Meaning = "from the needle to terminal B, lead included" },
            ]),
        StepKind.EarthGradient => new(
            [At, Number("spacingM", "m", 0, 100, "between the two stakes, 1 when not said; above 0") with { Required = false }],
            [
                Value("where the current leaves the wire", "ahead", "behind", "here", "nothing"),
                Number("microvolts", "µV", 0, 1e9, "what the meter showed, without sign") with { Required = false },
            ]),
        StepKind.TerminalLook => Test(Value("what ends and terminals look like", "sound", "loose", "corroded")),
        StepKind.Wiggle => new([At], [Value("what the meter did meanwhile", "steady", "jumps")]),
        StepKind.ChargeCheck => Test(Value("the mower on the station", "charges", "does-not")),
        StepKind.RemakeJoint => new([At], [Found]),
        StepKind.MendSpan => new([From, To], [Found]),
        StepKind.RestoreMains or StepKind.ReplaceSupply or StepKind.ReplaceStation or StepKind.RemakeTerminals or StepKind.RenewLoop
            or StepKind.RelayLayout or StepKind.RecodeStation or StepKind.ServiceReceiver or StepKind.ServiceDrive
            or StepKind.SwapEnds or StepKind.CleanContacts or StepKind.ReplaceBattery or StepKind.AskMaker => Test(Found),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a step of the catalogue."),
    };

    private static StepForm Test(params StepField[] outcomes) => new([], outcomes);

    private static StepField Place(string name, string meaning) => new(name, StepFieldType.Place, meaning) { Unit = "m", Least = 0 };

    private static StepField Number(string name, string unit, double least, double most, string meaning) =>
        new(name, StepFieldType.Number, meaning) { Unit = unit, Least = least, Most = most };

    private static StepField Word(string name, string meaning, params string[] words) =>
        new(name, StepFieldType.Word, meaning) { Words = words };

    private static StepField Value(string meaning, params string[] words) => Word("value", meaning, words);
}
