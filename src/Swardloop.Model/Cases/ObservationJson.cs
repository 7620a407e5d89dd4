using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Cases;

/// <summary>One observation of a case file: a test with its outcome, or a repair that was done.</summary>
/// <remarks>Read generously where a writer may reasonably differ: <c>null</c> counts as absent; a reading may be a number,
/// <c>"over-range"</c> or <c>null</c>, or <c>"value": "over-range"</c> may stand beside or instead of it.</remarks>
public static partial class ObservationJson
{
    /// <summary>Lead resistance taken when a file names none (Ω). Common practice, no source.</summary>
    public const double DefaultLeadOhms = 0.2;

    /// <summary>Supply voltage taken as nominal when a file names none (V). Common practice, no source.</summary>
    public const double DefaultNominalVolts = 24;

    /// <summary>How far beyond the drawn wire's end a place may lie (m): people measure, and wire is laid with slack.</summary>
    public const double BeyondEndMetres = 0.5;

    /// <summary>Longest note (characters).</summary>
    internal const int LongestText = 4000;

    /// <summary>Distance between the stakes of an earth gradient when a file names none (m). Common practice, no source.</summary>
    public const double DefaultSpacingMetres = 1;

    /// <summary>What <c>value</c> says instead of an outcome when a step was asked for and could not be done.</summary>
    public const string NotDone = "not-done";

    /// <summary>Longest name of a guide wire (characters).</summary>
    internal const int LongestName = 100;

    private const string OverRange = "over-range";

    private static readonly NumberRange Ohms = new(0, 1e9, "Ω");
    private static readonly NumberRange Lead = new(0, 100, "Ω");
    private static readonly NumberRange Volts = new(0, 1000, "V");
    private static readonly NumberRange NanoFarad = new(0, 1e6, "nF");
    private static readonly NumberRange TestVolts = NumberRange.AboveZero(5000, "V");
    private static readonly NumberRange Spacing = NumberRange.AboveZero(100, "m");

    private static readonly KeyValuePair<string, StepKind>[] Tests =
        [.. WireName.Words<StepKind>().Where(word => !StepCatalogue.Of(word.Value).IsRepair)];

    private static readonly KeyValuePair<string, StepKind>[] Repairs =
        [.. WireName.Words<StepKind>().Where(word => StepCatalogue.Of(word.Value).IsRepair)];

    private static IEnumerable<KeyValuePair<string, Conditions>> ConditionWords =>
        WireName.Words<Conditions>().Where(word => word.Value != Conditions.None);

    /// <summary>Reads one observation.</summary>
    /// <param name="element">The observation.</param>
    /// <param name="place">Its path in the file.</param>
    /// <param name="wireMetres">Length of the wire that places are checked against (m); null when the yard is not known.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="guides">The yard's guide wires; null when the yard is not known.</param>
    /// <returns>Null, with problems noted, when something is wrong.</returns>
    public static Observation? Read(
        JsonElement element, string place, double? wireMetres, ProblemList problems, IReadOnlyList<GuideWire>? guides = null)
    {
        int before = problems.Count;
        if (JsonFields.Of(element, place, problems) is not { } fields)
        {
            return null;
        }

        Reader reader = new(fields, wireMetres, guides);
        Observation? read = reader.Read();
        return problems.Count == before ? read : null;
    }

    private sealed class Reader(JsonFields fields, double? wireMetres, IReadOnlyList<GuideWire>? guides)
    {
        private NumberRange _place = new(0, wireMetres + BeyondEndMetres ?? 1e6, "m");

        public Observation? Read()
        {
            bool isTest = fields.Given("test"), isRepair = fields.Given("repair");
            if (isTest == isRepair)
            {
                fields.Problems.Add(fields.PlaceOf("test"), isTest ? "stands beside repair" : "missing", "either test or repair");
                return null;
            }

            string? wire = fields.TextOrNull("wire", LongestName);
            if (wire is not null && !IsOnGuide(wire))
            {
                return null;
            }

            StepKind? kind = isTest ? fields.Word("test", Tests) : fields.Word("repair", Repairs);
            Observation? read = kind is not { } step ? null : IsNotDone() ? CouldNotDo(step) : isTest ? Test(step) : Repair(step);
            Person by = fields.Given("by") ? fields.Word("by", WireName.Words<Person>()) ?? default : Person.Technician;
            DateTimeOffset? at = Time();
            string? note = fields.TextOrNull("note", LongestText);
            Conditions conditions = ReadConditions();
            return read is null ? null : read with { By = by, At = at, Note = note, Conditions = conditions, Wire = wire };
        }

        /// <summary>Places are measured along the guide wire named; one that the yard does not have is noted.</summary>
        private bool IsOnGuide(string wire)
        {
            GuideWire? guide = guides?.FirstOrDefault(guide => guide.Name == wire);
            if (guides is not null && guide is null)
            {
                fields.Problems.Add(fields.PlaceOf("wire"), $"got \"{JsonText.Shortened(wire)}\"",
                    guides.Count > 0 ? string.Join(", ", guides.Select(known => known.Name)) : "no wire but the loop: this yard has no guide wires");
                return false;
            }

            _place = new(0, guide?.LengthMetres + BeyondEndMetres ?? 1e6, "m");
            return true;
        }

        private bool IsNotDone() =>
            fields.Element("value", "") is { ValueKind: JsonValueKind.String } value && value.ValueEquals(NotDone);

        /// <summary>Where and how it should have been done is worth keeping, and not asked for: the step was not done.</summary>
        private Observation.NotDone CouldNotDo(StepKind kind)
        {
            double? from = null, to = null;
            if (fields.Given("fromM") || fields.Given("toM"))
            {
                Stretch(out double start, out double end);
                (from, to) = (start, end);
            }

            return new(new Step(kind)
            {
                Wire = fields.TextOrNull("wire", LongestName),
                AtMetres = fields.NumberOrNull("atM", _place),
                FromMetres = from,
                ToMetres = to,
                From = fields.Given("from") ? fields.Word("from", WireName.Words<WireEnd>()) : null,
                Place = fields.Given("place") ? fields.Word("place", WireName.Words<StartPlace>()) : null,
                NearMetal = fields.Given("nearMetal") ? fields.FlagOr("nearMetal", false) : null,
                TestVolts = fields.NumberOrNull("testVolts", TestVolts),
                Guide = fields.TextOrNull("guide", LongestName),
                Loaded = fields.Given("loaded") ? fields.FlagOr("loaded", false) : null,
                SpacingMetres = fields.NumberOrNull("spacingM", Spacing),
            });
        }

        private Conditions ReadConditions()
        {
            Conditions all = Conditions.None;
            if (fields.Given("conditions"))
            {
                foreach ((JsonElement element, string place) in fields.Items("conditions", 0, 10))
                {
                    KeyValuePair<string, Conditions> word = ConditionWords.FirstOrDefault(
                        word => element.ValueKind == JsonValueKind.String && element.ValueEquals(word.Key));
                    all |= word.Value;
                    if (word.Key is null)
                    {
                        fields.Problems.Add(place, $"got {JsonFields.Shown(element)}", string.Join(", ", ConditionWords.Select(known => known.Key)));
                    }
                }
            }

            return all;
        }

        private Observation? Test(StepKind kind) => kind switch
        {
            StepKind.OutletCheck => YesNo("live", "dead") is { } live ? new Observation.OutletCheck(live) : null,
            StepKind.SupplyVoltage => Number("volts", Volts) is { } volts
                ? new Observation.SupplyVoltage(volts, fields.NumberOr("nominalVolts", NumberRange.AboveZero(1000, "V"), DefaultNominalVolts), fields.FlagOr("loaded", false)) : null,
            StepKind.StationLamp => Value<LampState>() is { } state ? new Observation.StationLamp(state) : null,
            StepKind.MowerStart => MowerStart(),
            StepKind.MowerReach => MowerReach(),
            StepKind.FollowWire => Value<FollowOutcome>() is { } outcome ? new Observation.FollowWire(outcome) : null,
            StepKind.WireCrossing => WireCrossing(),
            StepKind.LoopResistance => LoopResistance(),
            StepKind.EarthResistance => Reading("ohms", out double? earth) ? new Observation.EarthResistance(earth) : null,
            StepKind.Insulation => Insulation(),
            StepKind.EarthRatio => Both("voltsA", "voltsB", Volts) is { } volts ? new Observation.EarthRatio(volts.A, volts.B) : null,
            StepKind.EndCapacitance => Both("nanofaradA", "nanofaradB", NanoFarad) is { } nano
                ? new Observation.EndCapacitance(nano.A * 1e-9, nano.B * 1e-9) : null,
            StepKind.SplitResistance => SplitResistance(),
            StepKind.Bypass => Stretch(out double from, out double to) & Reading("ohms", out double? ohms)
                ? new Observation.Bypass(from, to, ohms) : null,
            StepKind.ToneTrace => ToneTrace(),
            StepKind.Reflection => Reflection(),
            StepKind.Look => Look(),
            StepKind.SubstituteLoop => YesNo("runs", "no-signal") is { } runs ? new Observation.SubstituteLoop(runs) : null,
            StepKind.SubstituteMower => YesNo("runs", "no-signal") is { } runs ? new Observation.SubstituteMower(runs) : null,
            StepKind.NeighbourOff => YesNo("cured", "same") is { } cured ? new Observation.NeighbourOff(cured) : null,
            StepKind.MowerCheck => YesNo("runs", "same") is { } runs ? new Observation.MowerCheck(runs) : null,
            StepKind.AcRatio => Both("voltsA", "voltsB", Volts) is { } tone
                ? new Observation.AcRatio(tone.A, tone.B, fields.NumberOr("hertz", NumberRange.AboveZero(1e6, "Hz"), Observation.AcRatio.UsualHertz)) : null,
            StepKind.GuideResistance => GuideResistance(),
            StepKind.JointDrop => JointDrop(),
            StepKind.PinProbe => PinProbe(),
            StepKind.EarthGradient => EarthGradient(),
            StepKind.TerminalLook => Value<TerminalState>() is { } ends ? new Observation.TerminalLook(ends) : null,
            StepKind.Wiggle => Wiggle(),
            StepKind.ChargeCheck => YesNo("charges", "does-not") is { } charges ? new Observation.ChargeCheck(charges) : null,
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a test."),
        };

        private Observation.RepairDone Repair(StepKind kind)
        {
            double? at = kind == StepKind.RemakeJoint ? Number("atM", _place) : fields.NumberOrNull("atM", _place);
            double? from = null, to = null;
            if (kind == StepKind.MendSpan || fields.Given("fromM") || fields.Given("toM"))
            {
                Stretch(out double start, out double end);
                (from, to) = (start, end);
            }

            return new Observation.RepairDone(kind, at, from, to, fields.TextOrNull("found", LongestText));
        }

        private Observation.MowerStart? MowerStart()
        {
            StartPlace? place = fields.Given("place") ? fields.Word("place", WireName.Words<StartPlace>()) : StartPlace.AtWire;
            StartOutcome? outcome = Value<StartOutcome>();
            return place is { } where && outcome is { } what ? new Observation.MowerStart(where, what) : null;
        }

        private Observation.MowerReach? MowerReach()
        {
            double? distance = Number("distanceM", new(0, 1000, "m"));
            bool? atLeast = fields.Given("bound") ? YesNo("at-least", "exact", "bound") : false;
            return distance is { } metres && atLeast is { } bound ? new Observation.MowerReach(metres, bound) : null;
        }

        // The voltage is asked for: a reading at 500 V taken for one at 250 V, or the other way round, says something else.
        private Observation.Insulation? Insulation()
        {
            double? volts = Number("testVolts", TestVolts), megohms = Number("megohms", new(0, 1e9, "MΩ"));
            return volts is { } at && megohms is { } read ? new(at, read) : null;
        }

        private Observation.WireCrossing? WireCrossing()
        {
            bool? crossed = YesNo("crossed", "respected");
            double? at = fields.NumberOrNull("atM", _place);
            bool near = fields.FlagOr("nearMetal", false);
            return crossed is { } gone ? new Observation.WireCrossing(gone, at, near) : null;
        }

        private Observation.LoopResistance? LoopResistance()
        {
            bool read = Reading("ohms", out double? ohms);
            (double lead, MeterAccuracy meter) = (Leads(), Meter());
            return read ? new Observation.LoopResistance(ohms, lead, meter) : null;
        }

        private double Leads() => fields.NumberOr("leadOhms", Lead, DefaultLeadOhms);

        private MeterAccuracy Meter()
        {
            MeterAccuracy plain = MeterAccuracy.Plain;
            return fields.NestedOrNull("meter") is not { } given
                ? plain
                : new(
                    given.NumberOr("percent", new(0, 100, "%"), plain.PercentOfReading),
                    given.NumberOr("digits", new(0, 1000, ""), plain.Digits),
                    given.NumberOr("resolutionOhms", new(0, 1e6, "Ω"), plain.ResolutionOhms));
        }

        private Observation.GuideResistance? GuideResistance()
        {
            string? guide = fields.TextOrNull("guide", LongestName);
            bool read = Reading("ohmsA", out double? a) & Reading("ohmsB", out double? b);
            (double lead, MeterAccuracy meter) = (Leads(), Meter());
            return read ? new Observation.GuideResistance(guide, a, b, lead, meter) : null;
        }

        private Observation.JointDrop? JointDrop()
        {
            double? at = Number("atM", _place);
            double? milliamps = Number("milliamps", NumberRange.AboveZero(10_000, "mA")), millivolts = Number("millivolts", new(0, 100_000, "mV"));
            return at is { } metres && milliamps is { } current && millivolts is { } drop
                ? new Observation.JointDrop(metres, current * 1e-3, drop * 1e-3) : null;
        }

        private Observation.PinProbe? PinProbe()
        {
            double? at = Number("atM", _place);
            bool read = Reading("ohmsA", out double? a) & Reading("ohmsB", out double? b);
            double lead = Leads();
            return read && at is { } metres ? new Observation.PinProbe(metres, a, b, lead) : null;
        }

        private Observation.EarthGradient? EarthGradient()
        {
            double? at = Number("atM", _place);
            double spacing = fields.NumberOr("spacingM", Spacing, DefaultSpacingMetres);
            GradientOutcome? outcome = Value<GradientOutcome>();
            double? microvolts = fields.NumberOrNull("microvolts", new(0, 1e9, "µV"));
            return at is { } metres && outcome is { } where ? new Observation.EarthGradient(metres, spacing, where, microvolts * 1e-6) : null;
        }

        private Observation.Wiggle? Wiggle()
        {
            double? at = Number("atM", _place);
            return YesNo("jumps", "steady") is { } jumps && at is { } metres ? new Observation.Wiggle(metres, jumps) : null;
        }

        private Observation.SplitResistance? SplitResistance()
        {
            double? at = Number("atM", _place);
            bool read = Reading("ohmsA", out double? a) & Reading("ohmsB", out double? b);
            double lead = Leads();
            return read && at is { } metres ? new Observation.SplitResistance(metres, a, b, lead) : null;
        }

        private Observation.ToneTrace? ToneTrace()
        {
            double? at = Number("atM", _place);
            WireEnd? from = fields.Word("from", WireName.Words<WireEnd>(), required: true);
            ToneStrength? strength = Value<ToneStrength>();
            return at is { } metres && from is { } end && strength is { } heard ? new Observation.ToneTrace(metres, end, heard) : null;
        }

        private Observation.Reflection? Reflection()
        {
            NumberRange delays = new(0, 1e6, "ns");
            WireEnd? from = fields.Word("from", WireName.Words<WireEnd>(), required: true);
            EchoKind? kind = fields.Word("kind", WireName.Words<EchoKind>(), required: true);
            double? delay = kind is EchoKind.None or null ? fields.NumberOrNull("delayNs", delays) : Number("delayNs", delays);
            return from is { } end && kind is { } echo ? new Observation.Reflection(end, delay * 1e-9, echo) : null;
        }

        private Observation.Look? Look()
        {
            bool read = Stretch(out double from, out double to);
            return YesNo("damage", "nothing") is { } damage && read ? new(from, to, damage) : null;
        }

        private double? Number(string name, NumberRange range) => fields.Number(name, range, required: true);

        private (double A, double B)? Both(string nameA, string nameB, NumberRange range)
        {
            double? a = Number(nameA, range), b = Number(nameB, range);
            return a is { } ofA && b is { } ofB ? (ofA, ofB) : null;
        }

        private T? Value<T>()
            where T : struct, Enum =>
            fields.Word("value", WireName.Words<T>(), required: true);

        private bool? YesNo(string yes, string no, string name = "value") =>
            fields.Word<bool>(name, [new(yes, true), new(no, false)], required: true);

        /// <summary>A meter's reading; null is over-range. False, with a problem noted, when there is none.</summary>
        private bool Reading(string name, out double? ohms)
        {
            ohms = null;
            JsonElement? there = fields.Element(name, "");
            if (there is null or { ValueKind: JsonValueKind.Null } || there.Value.ValueKind == JsonValueKind.String && there.Value.ValueEquals(OverRange))
            {
                if (there is not null || (name == "ohms" && fields.Given("value")))
                {
                    return !fields.Given("value") || fields.Word<bool>("value", [new(OverRange, true)]) is true;
                }

                fields.Problems.Add(fields.PlaceOf(name), "missing", $"{Ohms}, or over-range");
                return false;
            }

            if (fields.Given("value"))
            {
                fields.Problems.Add(fields.PlaceOf("value"), $"stands beside {name}", $"either {name} or value: over-range");
                return false;
            }

            ohms = fields.Number(name, Ohms);
            return ohms is not null;
        }

        private bool Stretch(out double from, out double to)
        {
            double? start = Number("fromM", _place), end = Number("toM", _place);
            (from, to) = (start ?? 0, end ?? 0);
            if (start >= end)
            {
                fields.Problems.Add(fields.PlaceOf("toM"), FormattableString.Invariant($"got {end}, not above fromM {start}"), "more than fromM");
                return false;
            }

            return start is not null && end is not null;
        }

        private DateTimeOffset? Time()
        {
            if (!fields.Given("at"))
            {
                return null;
            }

            JsonElement element = fields.Element("at", "")!.Value;
            if (element.ValueKind == JsonValueKind.String
                && DateTimeOffset.TryParseExact(
                    element.GetString(),
                    ["yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFF'Z'", "yyyy-MM-dd' 'HH:mm:ss.FFFFFFFzzz"],
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.AssumeUniversal,
                    out DateTimeOffset time))
            {
                return time;
            }

            fields.Problems.Add(fields.PlaceOf("at"), $"got {JsonFields.Shown(element)}", "a time with its offset (RFC 3339), such as 2026-05-04T09:30:00+02:00");
            return null;
        }
    }
}
