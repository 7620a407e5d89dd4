using System.Collections.Frozen;

namespace Swardloop.Workshop.Records;

/// <summary>Which fields each kind of record has. The one place that says so: forms, checks and the erasing of personal data read it.</summary>
public static class RecordFields
{
    /// <summary>States of a case, in the order in which most pass through them.</summary>
    public static IReadOnlyList<string> CaseStates { get; } = ["open", "waiting-for-owner", "visit-planned", "closed"];

    /// <summary>Field, set by the server alone: when the person whose record it is was forgotten. What was written before is refused when it comes.</summary>
    public const string ForgottenAt = "forgottenAt";

    private static readonly RecordField Forgotten = new(ForgottenAt, FieldType.Moment) { ByServer = true };
    private static readonly RecordField Note = new("note", FieldType.Text) { MostCharacters = 4000, Personal = true };
    private static readonly RecordField Archived = new("archived", FieldType.Flag);
    private static readonly RecordField Name = new("name", FieldType.Text) { Required = true };
    private static readonly RecordField OfYard = To("yard", RecordKind.Yard);
    private static readonly RecordField OfCase = To("case", RecordKind.Case);

    private static readonly FrozenDictionary<RecordKind, FrozenDictionary<string, RecordField>> Table =
        new Dictionary<RecordKind, RecordField[]>
        {
            [RecordKind.Owner] =
            [
                Name with { Personal = true },
                new("phone", FieldType.Text) { Personal = true },
                new("email", FieldType.Text) { Personal = true },
                new("address", FieldType.Text) { MostCharacters = 1000, Personal = true },
                new("language", FieldType.Text) { MostCharacters = 35 },
                Note, Archived, Forgotten,
            ],
            [RecordKind.Yard] =
            [
                Name with { Personal = true },
                To("owner", RecordKind.Owner),
                new("address", FieldType.Text) { MostCharacters = 1000, Personal = true },
                new("file", FieldType.YardFile) { Required = true, Personal = true },
                To("profile", RecordKind.Profile),
                new("laidOn", FieldType.Day),
                Note, Archived, Forgotten,
            ],
            [RecordKind.Case] =
            [
                OfYard with { Required = true, Once = true },
                new("complaint", FieldType.Text) { MostCharacters = 4000, Personal = true },
                new("state", FieldType.Word) { Words = CaseStates },
                new("openedAt", FieldType.Moment),
                new("promisedOn", FieldType.Day),
                new("assignedTo", FieldType.Text) { Personal = true },
                // The last observation that a person of the workshop has looked at: owner's answers after it are new.
                To("lookedAt", RecordKind.Observation),
                new("onSite", FieldType.Flag),
                new("can", FieldType.Capabilities),
                new("closedAt", FieldType.Moment),
                new("foundCause", FieldType.Text),
                new("foundAtM", FieldType.Number) { Unit = "m", Most = 1e5 },
                new("found", FieldType.Text) { MostCharacters = 4000, Personal = true },
                // The acceptance sheet, signed on the screen: who, when, and the strokes.
                new("acceptedBy", FieldType.Text) { Personal = true },
                new("acceptedAt", FieldType.Moment),
                new("acceptedMark", FieldType.Text) { MostCharacters = 4000, Personal = true },
                // The loop reading that was signed for: the yard's baseline when it lies within the band of a sound loop.
                To("acceptedReading", RecordKind.Observation),
                // The last sheet sent by the workshop's mail server, to whom, and what that answered; earlier ones stand in the history.
                new("sentSheet", FieldType.Text) { MostCharacters = 1000, Personal = true },
                Note, Archived, Forgotten,
            ],
            [RecordKind.Observation] =
            [
                OfYard with { Required = true, Once = true },
                OfCase with { Once = true },
                To("after", RecordKind.Observation) with { Once = true },
                To("corrects", RecordKind.Observation) with { Once = true },
                new("reading", FieldType.Observation) { Required = true, Once = true, Personal = true },
                new("struck", FieldType.Text) { MostCharacters = 1000, Personal = true },
            ],
            [RecordKind.Visit] =
            [
                OfYard with { Required = true }, OfCase,
                new("on", FieldType.Day) { Required = true },
                new("at", FieldType.Text) { MostCharacters = 5 },
                new("minutes", FieldType.Number) { Unit = "min", Most = 1440 },
                new("who", FieldType.Text) { Personal = true },
                new("done", FieldType.Flag),
                Note, Archived,
            ],
            [RecordKind.Instrument] =
            [
                Name,
                new("type", FieldType.Word)
                {
                    Words = ["multimeter", "capacitance-meter", "battery", "tone-sender", "insulation-tester", "reflectometer"],
                },
                new("percent", FieldType.Number) { Unit = "%", Most = 100 },
                new("digits", FieldType.Number) { Most = 1000 },
                new("resolutionOhms", FieldType.Number) { Unit = "Ω" },
                new("leadOhms", FieldType.Number) { Unit = "Ω", Most = 100 },
                Note, Archived,
            ],
            [RecordKind.Conductor] =
            [
                Name,
                new("material", FieldType.Word) { Words = ["copper", "aluminium", "copper-clad-steel", "copper-clad-aluminium"] },
                new("areaMm2", FieldType.Number) { Unit = "mm²", Least = 0.05, Most = 50 },
                new("conductivityPercentIacs", FieldType.Number) { Unit = "%", Least = 1, Most = 110 },
                new("ohmsPerKmAt20C", FieldType.Number) { Unit = "Ω/km", Least = 0.1, Most = 10000 },
                new("capacitancePFPerM", FieldType.Number) { Unit = "pF/m", Most = 10000 },
                new("metresInStock", FieldType.Number) { Unit = "m" },
                new("pricePerM", FieldType.Number),
                Note, Archived,
            ],
            [RecordKind.Profile] =
            [
                Name,
                new("sourceOhms", FieldType.Number) { Unit = "Ω" },
                new("reachConstantOhmM", FieldType.Number) { Unit = "Ω·m" },
                new("frequencyHz", FieldType.Number) { Unit = "Hz" },
                new("lampAlarmOhms", FieldType.Number) { Unit = "Ω", Most = 1e9 },
                new("hasContinuityLamp", FieldType.Flag),
                new("sensorHeightM", FieldType.Number) { Unit = "m", Most = 2 },
                new("bench", FieldType.BenchFile),
                Note, Archived,
            ],
            [RecordKind.Rates] =
            [
                new("labourPerHour", FieldType.Number),
                new("travelPerVisit", FieldType.Number),
                new("ownerPatiencePerHour", FieldType.Number),
                new("currency", FieldType.Text) { MostCharacters = 8 },
                new("taxPercent", FieldType.Number) { Unit = "%", Most = 100 },
                new("pricesIncludeTax", FieldType.Flag),
                new("taxPerLine", FieldType.Flag),
                new("roundLines", FieldType.Word) { Words = RatesPrices.LineSteps },
                new("roundTotal", FieldType.Word) { Words = RatesPrices.TotalSteps },
                new("roundHalves", FieldType.Word) { Words = RatesPrices.HalfWords },
                new("steps", FieldType.StepPace),
                new("without", FieldType.Steps) { MostCharacters = 1000 },
                Note,
            ],
            [RecordKind.Code] =
            [
                new("machine", FieldType.Text) { Required = true },
                new("shown", FieldType.Text) { Required = true },
                new("meaning", FieldType.Text) { MostCharacters = 1000 },
                new("reading", FieldType.Observation),
                To("profile", RecordKind.Profile),
                Archived,
            ],
            [RecordKind.Photo] =
            [
                // A photo taken before the answer is of its case, and then of the observation.
                new("of", FieldType.Reference) { Required = true },
                OfYard,
                new("jointAtM", FieldType.Number) { Unit = "m", Most = 1e5 },
                new("caption", FieldType.Text) { MostCharacters = 1000, Personal = true },
                new("takenAt", FieldType.Moment),
                new("position", FieldType.Position) { Personal = true },
                Archived, Forgotten,
            ],
            [RecordKind.OwnerLink] =
            [
                OfCase with { Required = true, Once = true },
                OfYard with { Required = true, Once = true },
                new("secretHash", FieldType.Text) { Required = true, Once = true, MostCharacters = 64 },
                new("expiresAt", FieldType.Moment) { Required = true },
                new("revoked", FieldType.Flag),
                new("language", FieldType.Text) { MostCharacters = 35 },
                // Steps by the contract's names, parted by blanks: what the workshop wants asked first; what the owner said he cannot do.
                new("ask", FieldType.Text) { MostCharacters = 1000 },
                new("cannot", FieldType.Text) { MostCharacters = 1000 },
                new("lastUsedAt", FieldType.Moment),
            ],
            [RecordKind.Workshop] =
            [
                new("name", FieldType.Text),
                new("phone", FieldType.Text),
                new("email", FieldType.Text),
                new("address", FieldType.Text) { MostCharacters = 1000 },
                new("language", FieldType.Text) { MostCharacters = 35 },
                // Where owners reach the server, when that is not where the page was opened: stands in links and QR codes.
                new("publicAddress", FieldType.Text) { IsWebAddress = true },
                new("units", FieldType.Word) { Words = ["metric", "feet"] },
            ],
        }.ToFrozenDictionary(kind => kind.Key, kind => kind.Value.ToFrozenDictionary(field => field.Name, StringComparer.Ordinal));

    /// <summary>The fields of a kind, by name.</summary>
    public static IReadOnlyDictionary<string, RecordField> Of(RecordKind kind) => Table[kind];

    private static RecordField To(string name, params RecordKind[] of) => new(name, FieldType.Reference) { Of = of };
}
