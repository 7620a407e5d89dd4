using System.Collections.Frozen;
using System.Globalization;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Words;

/// <summary>The wording of one language: a table from meaning to text, with numbered gaps, and how numbers look in it.
/// Another language is another table. Immutable.</summary>
public sealed class Phrasebook
{
    private readonly FrozenDictionary<Phrase, string> _texts;
    private readonly NumberFormatInfo _numbers;
    private readonly bool _nounsKeepCapitals;
    private readonly double _metresPerUnit = 1;

    /// <summary>Makes a wording.</summary>
    /// <param name="texts">A text for every phrase.</param>
    /// <param name="numbers">How numbers are written.</param>
    /// <param name="nounsKeepCapitals">Whether a title put into a sentence keeps its capital, as German nouns do.</param>
    /// <exception cref="ArgumentException">A phrase has no text.</exception>
    public Phrasebook(IReadOnlyDictionary<Phrase, string> texts, NumberFormatInfo numbers, bool nounsKeepCapitals = false)
    {
        _nounsKeepCapitals = nounsKeepCapitals;
        foreach (Phrase phrase in Enum.GetValues<Phrase>())
        {
            if (!texts.TryGetValue(phrase, out string? text) || text.Length == 0)
            {
                throw new ArgumentException($"{phrase} has no text.", nameof(texts));
            }
        }

        _texts = texts.ToFrozenDictionary();
        _numbers = numbers;
    }

    /// <summary>English.</summary>
    public static Phrasebook English { get; } = new(EnglishTexts(), NumberFormatInfo.InvariantInfo);

    /// <summary>German.</summary>
    public static Phrasebook German { get; } = new(
        GermanPhrases.Texts(), new NumberFormatInfo { NumberDecimalSeparator = ",", NumberGroupSeparator = "." }, nounsKeepCapitals: true);

    private Phrasebook(Phrasebook other, string lengthUnit, double metresPerUnit) =>
        (_texts, _numbers, _nounsKeepCapitals, LengthUnit, _metresPerUnit) = (other._texts, other._numbers, other._nounsKeepCapitals, lengthUnit, metresPerUnit);

    /// <summary>The unit in which lengths are said.</summary>
    public string LengthUnit { get; } = "m";

    /// <summary>The same wording with lengths in feet of 0.3048 m (ISO 31-1:1992, annex, from memory).</summary>
    public Phrasebook InFeet() => new(this, "ft", 0.3048);

    /// <summary>The text of a phrase without gaps.</summary>
    public string this[Phrase phrase] => _texts[phrase];

    /// <summary>The text of a phrase, its gaps filled. Texts put in are never read as formats.</summary>
    public string Say(Phrase phrase, params ReadOnlySpan<object> gaps) => string.Format(_numbers, _texts[phrase], gaps);

    /// <summary>A title as it stands inside a sentence.</summary>
    public string InSentence(string title) => _nounsKeepCapitals ? title : char.ToLowerInvariant(title[0]) + title[1..];

    /// <summary>A number with at most so many decimals, none that is zero.</summary>
    public string Number(double value, int decimals = 1)
    {
        double rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero) + 0.0;
        return rounded.ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), _numbers);
    }

    /// <summary>A length with its unit, tenths at most.</summary>
    /// <param name="metres">The length (m).</param>
    public string Length(double metres) => $"{LengthNumber(metres)} {LengthUnit}";

    /// <summary>The number of a length in <see cref="LengthUnit"/>, tenths at most.</summary>
    /// <param name="metres">The length (m).</param>
    public string LengthNumber(double metres) => Number(metres / _metresPerUnit);

    /// <summary>A sum to be paid: two decimals unless they are zero.</summary>
    public string Money(double amount, string currency) =>
        $"{(amount == Math.Round(amount) ? Number(amount, 0) : amount.ToString("0.00", _numbers))} {PlaceWords.OneLine(currency)}";

    /// <summary>A sum that is only expected: whole units from 10 on, as more would pretend.</summary>
    public string AboutMoney(double amount, string currency) =>
        Money(Math.Abs(amount) >= 10 ? Math.Round(amount) : amount, currency);

    /// <summary>A resistance with its unit, three digits; over-range when null.</summary>
    public string Ohms(double? ohms) => ohms switch
    {
        null => this[Phrase.OverRange],
        >= 1e6 => $"{Number(ohms.Value / 1e6, 1)} MΩ",
        >= 1e4 => $"{Number(ohms.Value / 1e3, 1)} kΩ",
        >= 100 => $"{Number(ohms.Value, 0)} Ω",
        _ => $"{Number(ohms.Value, 2)} Ω",
    };

    /// <summary>A probability in per cent, never rounded to certainty: what is not 0 or 1 is not shown as 0 % or 100 %.</summary>
    public string Percent(double probability) => probability switch
    {
        0 => "0 %",
        1 => "100 %",
        < 0.01 => Say(Phrase.UnderPercent, 1),
        > 0.99 => Say(Phrase.OverPercent, 99),
        _ => Number(Math.Clamp(100 * probability, 1, 99), 0) + " %",
    };

    /// <summary>A probability as a word. The bounds are common practice, no source.</summary>
    public string HowSure(double probability) => this[probability switch
    {
        >= 0.98 => Phrase.AllButCertain,
        >= 0.85 => Phrase.VeryLikely,
        >= 0.6 => Phrase.Likely,
        >= 0.4 => Phrase.AsLikelyAsNot,
        >= 0.15 => Phrase.Possible,
        >= 0.03 => Phrase.Unlikely,
        _ => Phrase.VeryUnlikely,
    }];

    /// <summary>What a cause is called.</summary>
    public string Name(Cause cause) =>
        cause.Second is not { } second ? Name(cause.First)
        : second == cause.First ? Say(Phrase.CauseTwice, Name(second))
        : Say(Phrase.CausePair, Name(cause.First), Name(second));

    private string Name(CauseKind kind) => this[Phrase.CauseNoMains + (int)kind];

    private static Dictionary<Phrase, string> EnglishTexts() => new()
    {
        [Phrase.North] = "north",
        [Phrase.NorthEast] = "north-east",
        [Phrase.East] = "east",
        [Phrase.SouthEast] = "south-east",
        [Phrase.South] = "south",
        [Phrase.SouthWest] = "south-west",
        [Phrase.West] = "west",
        [Phrase.NorthWest] = "north-west",

        [Phrase.Station] = "the station",
        [Phrase.TerminalA] = "terminal A",
        [Phrase.TerminalB] = "terminal B",
        [Phrase.Corner] = "the {0} corner",
        [Phrase.InnerCorner] = "the inner corner",
        [Phrase.Ordinal1] = "first",
        [Phrase.Ordinal2] = "second",
        [Phrase.Ordinal3] = "third",
        [Phrase.OrdinalMore] = "{0}th",
        [Phrase.NthFromA] = "{1} ({0} from A)",
        [Phrase.Island] = "the island",
        [Phrase.NumberedIsland] = "island {0}",
        [Phrase.IslandCorner] = "the {0} corner of {1}",
        [Phrase.TurnOff] = "the turn-off to {0}",
        [Phrase.Joint] = "joint {0}",

        [Phrase.At] = "{0}, at {1}",
        [Phrase.AtLandmark] = "at {0}",
        [Phrase.StraightFrom] = "{0} {1} of {2}",
        [Phrase.AlongClockwise] = "{0} along the wire, clockwise from {1}",
        [Phrase.AlongCounterClockwise] = "{0} along the wire, counter-clockwise from {1}",
        [Phrase.AlongPast] = "{0} along the wire past {1}, coming from A",
        [Phrase.AlongBefore] = "{0} along the wire before {1}, coming from A",
        [Phrase.BeyondJoint] = ", {0} beyond joint {1}",
        [Phrase.ShortOfJoint] = ", {0} short of joint {1}",
        [Phrase.Beside] = ", by the {0}",
        [Phrase.LinkOut] = "{0} out on the double wire to {1} (the wire coming from A)",
        [Phrase.LinkBack] = "{0} out on the double wire to {1} (the wire going on to B)",
        [Phrase.Stretch] = "from {0} to {1}",
        [Phrase.OnGuide] = "{0} from the station on guide wire {1}",
        [Phrase.StretchOnGuide] = "{0} to {1} from the station on guide wire {2}",
        [Phrase.AlongFromA] = "{0} along the wire from terminal A",
        [Phrase.StretchAlongFromA] = "{0} to {1} along the wire from terminal A",
        [Phrase.CourseHeard] = " (wire heard, to within {0})",
        [Phrase.StretchFrom] = "{0} to {1} {2} of {3}",

        [Phrase.CauseNoMains] = "no mains at the outlet",
        [Phrase.CauseSupply] = "dead power supply",
        [Phrase.CauseStation] = "dead station",
        [Phrase.CauseEndsSwapped] = "wire ends swapped",
        [Phrase.CauseSeriesResistance] = "bad joint or corroded wire",
        [Phrase.CauseOpen] = "broken wire",
        [Phrase.CauseLeak] = "earth fault",
        [Phrase.CauseLeakPair] = "earth faults at two places",
        [Phrase.CauseLayout] = "layout too wide for a sound loop",
        [Phrase.CauseCrosstalk] = "a neighbour's loop interferes",
        [Phrase.CauseReceiver] = "mower's receiver",
        [Phrase.CauseDrive] = "mower's drive",
        [Phrase.CauseShortCircuit] = "two wires of a double run touch",
        [Phrase.CauseUnsteady] = "a contact that comes and goes",
        [Phrase.CauseGuide] = "fault in a guide wire",
        [Phrase.CauseCharging] = "mower does not charge",
        [Phrase.CauseUnmodelled] = "something we do not know",
        [Phrase.CauseNone] = "nothing wrong any more",
        [Phrase.CausePair] = "{0}, and {1}",
        [Phrase.CauseTwice] = "{0}, at two places",

        [Phrase.AllButCertain] = "all but certain",
        [Phrase.VeryLikely] = "very likely",
        [Phrase.Likely] = "likely",
        [Phrase.AsLikelyAsNot] = "as likely as not",
        [Phrase.Possible] = "possible",
        [Phrase.Unlikely] = "unlikely",
        [Phrase.VeryUnlikely] = "very unlikely",
        [Phrase.UnderPercent] = "under {0} %",
        [Phrase.OverPercent] = "over {0} %",

        [Phrase.WhyCures] = "ends the trouble with a chance of {0}",
        [Phrase.WhyTellsApart] = "tells apart: {0}",
        [Phrase.WhyTellsWhether] = "tells whether it is: {0}",
        [Phrase.WhyNarrows] = "narrows the place from {0} to about {1}",
        [Phrase.WhySaves] = "saves about {0} against the best way on without it",
        [Phrase.WhyBestWayOn] = "cheapest way on from here",
        [Phrase.WhyAsksAgain] = "asked again, as the first answer does not fit the rest",
        [Phrase.WhyLooksAgain] = "once more, as a contact that comes and goes may be another way now",
        [Phrase.ClauseAnd] = "{0}; {1}",
        [Phrase.Or] = "{0} / {1}",

        [Phrase.SeenOutletLive] = "outlet is live",
        [Phrase.SeenOutletDead] = "outlet is dead",
        [Phrase.SeenSupply] = "supply gives {0} V where {1} V is due",
        [Phrase.SeenLampOff] = "station's lamp is off",
        [Phrase.SeenLampNormal] = "station's lamp is normal",
        [Phrase.SeenLampFlicker] = "station's lamp flickers",
        [Phrase.SeenLampAlarm] = "station's lamp shows alarm",
        [Phrase.AtWire] = "beside the wire",
        [Phrase.MidLawn] = "in the middle of the lawn",
        [Phrase.SeenStartAtWire] = "mower beside the wire: {0}",
        [Phrase.SeenStartMidLawn] = "mower in mid-lawn: {0}",
        [Phrase.Runs] = "runs",
        [Phrase.NoSignal] = "no signal",
        [Phrase.ThinksOutside] = "thinks it is outside",
        [Phrase.SeenReach] = "mower turns back {0} from the wire",
        [Phrase.SeenReachAtLeast] = "mower reaches at least {0} from the wire",
        [Phrase.SeenFollowSteady] = "mower follows the wire steadily",
        [Phrase.SeenFollowWavering] = "mower wavers along the wire",
        [Phrase.SeenFollowLost] = "mower loses the wire",
        [Phrase.SeenRespected] = "mower respects the wire",
        [Phrase.SeenCrossed] = "mower crosses the wire",
        [Phrase.NearMetal] = "{0} beside metal",
        [Phrase.SeenLoop] = "loop reads {0}",
        [Phrase.SeenEarth] = "loop to earth reads {0}",
        [Phrase.SeenInsulation] = "insulation is {0} MΩ at {1} V",
        [Phrase.SeenEarthRatio] = "battery to earth: {0} V at A, {1} V at B",
        [Phrase.SeenEndCapacitance] = "end capacitance: {0} nF at A, {1} nF at B",
        [Phrase.SeenSplit] = "opened: {0} towards A, {1} towards B",
        [Phrase.SeenBypass] = "with a bypass the loop reads {0}",
        [Phrase.SeenTone] = "tone from {0} is {1}",
        [Phrase.ToneStrong] = "strong",
        [Phrase.ToneWeak] = "weak",
        [Phrase.ToneNone] = "not heard",
        [Phrase.SeenEcho] = "echo from {0}: {1}",
        [Phrase.EchoOpen] = "a break after {0} ns",
        [Phrase.EchoShort] = "a short after {0} ns",
        [Phrase.EchoNone] = "none",
        [Phrase.SeenDamage] = "looked: damage",
        [Phrase.SeenNothing] = "looked: nothing to see",
        [Phrase.SeenTestLoop] = "mower on a test loop: {0}",
        [Phrase.SeenOtherMower] = "another mower here: {0}",
        [Phrase.SeenNeighbourCured] = "neighbour's station off: cured",
        [Phrase.SeenNeighbourSame] = "neighbour's station off: the same",
        [Phrase.SeenCheckRuns] = "mower checked: runs",
        [Phrase.SeenCheckSame] = "mower checked: the same as before",
        [Phrase.SeenSupplyLoaded] = "supply gives {0} V of {1} V with the station drawing",
        [Phrase.SeenAcRatio] = "tone of {2} Hz to earth: {0} V at A, {1} V at B",
        [Phrase.SeenGuide] = "guide wire: {0} to A, {1} to B",
        [Phrase.SeenNamedGuide] = "guide wire {2}: {0} to A, {1} to B",
        [Phrase.SeenJointDrop] = "joint drops {0} mV at {1} mA, {2}",
        [Phrase.SeenPinProbe] = "pierced: {0} towards A, {1} towards B",
        [Phrase.SeenGradientAhead] = "earth gradient: current leaves further on, towards B",
        [Phrase.SeenGradientBehind] = "earth gradient: current leaves behind, towards A",
        [Phrase.SeenGradientHere] = "earth gradient: current leaves here",
        [Phrase.SeenGradientNothing] = "earth gradient: nothing to be told",
        [Phrase.SeenGradientReading] = "{0} ({1} µV over {2})",
        [Phrase.SeenEndsSound] = "wire ends and terminals are bright and tight",
        [Phrase.SeenEndsLoose] = "wire ends are loose",
        [Phrase.SeenEndsCorroded] = "wire ends or terminals are corroded",
        [Phrase.SeenWiggleSteady] = "moved: the reading stays steady",
        [Phrase.SeenWiggleJumps] = "moved: the reading jumps",
        [Phrase.SeenCharges] = "mower charges on the station",
        [Phrase.SeenDoesNotCharge] = "mower does not charge on the station",
        [Phrase.SeenNotDone] = "could not be done: {0}",
        [Phrase.SeenUnder] = "{0}, {1}",
        [Phrase.GroundWet] = "ground wet",
        [Phrase.GroundDry] = "ground dry",
        [Phrase.GroundFrost] = "ground frozen",
        [Phrase.WireMoved] = "just after it was moved",
        [Phrase.SeenRepair] = "done: {0}",
        [Phrase.SeenRepairFound] = "{0}; found: {1}",
        [Phrase.SeenByOwner] = "{0} (owner)",
        [Phrase.WithPlace] = "{0}; {1}",
        [Phrase.OverRange] = "over-range",

        [Phrase.SheetKnown] = "KNOWN",
        [Phrase.SheetNothingYet] = "Nothing was tried yet.",
        [Phrase.SheetLikely] = "LIKELY",
        [Phrase.SheetPlace] = "PLACE",
        [Phrase.SheetNext] = "NEXT: {0}",
        [Phrase.SheetElse] = "OR ELSE",
        [Phrase.SheetDisagreement] = "These readings disagree. The one that does not fit: {0}.",
        [Phrase.SheetRepeat] = "Before you trust any of it, repeat: {0}.",
        [Phrase.SheetUnmodelled] =
            "The readings fit nothing that this program knows ({0} for that). Repeat what surprised you, and ask someone with more experience.",
        [Phrase.SheetConductorUnknown] =
            "What the wire is made of is not known. It is taken as any copper wire of 0.5 mm² to 2.5 mm². Its print or its thickness would tell more.",
        [Phrase.SheetFinished] = "The mower runs. Nothing is left to do.",
        [Phrase.SheetNobody] = "Nobody here can take a step that would help.",
        [Phrase.SheetExcess] = "Too much resistance in the loop: {0} ({1} to {2}).",
        [Phrase.SheetInterval] = "{0} from A along the wire; {1}: {2} to {3}.",
        [Phrase.SheetVerdict] = "{0}: {1}.",
        [Phrase.SheetMore] = "{0} more, together {1}",
        [Phrase.SheetWho] = "{0}, {1} min",
        [Phrase.SheetCost] = "{0} now; about {1} until it runs",
        [Phrase.SheetCostInAll] = "about {0} until it runs",
        [Phrase.SheetWhy] = "Why: {0}",
        [Phrase.SheetFirst] = "Before you start:",
        [Phrase.SheetThen] = "Then:",
        [Phrase.SheetAlternative] = "{0}: {1}, {2}",
        [Phrase.Technician] = "technician",
        [Phrase.Owner] = "owner",
        [Phrase.TimesAsLikely] = "{0}: {1} times as likely",
        [Phrase.TimesLessLikely] = "{0}: {1} times less likely",
        [Phrase.MoreThan] = "more than {0}",
        [Phrase.TellsLittle] = "says little",
    };
}
