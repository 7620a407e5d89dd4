using System.Collections.Frozen;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Wording;

/// <summary>What the fields of records and the words they may hold are called. One row a text, one column a language.</summary>
public sealed class FieldTexts
{
    private readonly FrozenDictionary<string, string> _texts;

    private FieldTexts(Func<(string Key, string English, string German), string> column) =>
        _texts = Table.ToFrozenDictionary(row => row.Key, column, StringComparer.Ordinal);

    public static FieldTexts English { get; } = new(row => row.English);

    public static FieldTexts German { get; } = new(row => row.German);

    private static (string Key, string English, string German)[] Table =>
    [
        ("owner", "Owner", "Besitzer"),
        ("yard", "Yard", "Garten"),
        ("case", "Case", "Fall"),
        ("observation", "Observation", "Befund"),
        ("visit", "Visit", "Besuch"),
        ("instrument", "Instrument", "Messgerät"),
        ("conductor", "Wire in stock", "Draht auf Lager"),
        ("profile", "Station and mower", "Station und Mäher"),
        ("rates", "Rates", "Sätze"),
        ("code", "Code", "Code"),
        ("photo", "Photo", "Foto"),
        ("workshop", "Workshop", "Werkstatt"),
        ("owner-link", "Owner's link", "Link für Besitzer"),
        ("*.name", "Name", "Name"),
        ("*.note", "Note", "Notiz"),
        ("*.archived", "Put away", "Abgelegt"),
        ("*.forgottenAt", "Person forgotten", "Person vergessen"),
        ("*.yard", "Yard", "Garten"),
        ("*.case", "Case", "Fall"),
        ("*.phone", "Telephone", "Telefon"),
        ("*.email", "E-mail", "E-Mail"),
        ("workshop.publicAddress", "Address for owners", "Adresse für Besitzer"),
        ("*.address", "Address", "Anschrift"),
        ("*.language", "Language", "Sprache"),
        ("yard.owner", "Owner", "Besitzer"),
        ("yard.file", "Drawing and loop", "Plan und Schleife"),
        ("yard.profile", "Station and mower", "Station und Mäher"),
        ("yard.laidOn", "Laid on", "Verlegt am"),
        ("case.complaint", "Complaint", "Beschwerde"),
        ("case.state", "State", "Stand"),
        ("case.state.open", "Open", "Offen"),
        ("case.state.waiting-for-owner", "Waiting for the owner", "Wartet auf Besitzer"),
        ("case.state.visit-planned", "Visit planned", "Besuch geplant"),
        ("case.state.closed", "Closed", "Abgeschlossen"),
        ("case.openedAt", "Opened", "Eröffnet"),
        ("case.promisedOn", "Promised for", "Zugesagt für"),
        ("case.assignedTo", "In charge", "Zuständig"),
        ("case.lookedAt", "Looked at up to", "Angesehen bis"),
        ("case.onSite", "Somebody is on site", "Jemand ist vor Ort"),
        ("case.can", "Who can do what", "Wer was kann"),
        ("case.closedAt", "Closed", "Abgeschlossen"),
        ("case.foundCause", "Cause found", "Gefundene Ursache"),
        ("case.acceptedBy", "Accepted by", "Abgenommen von"),
        ("case.acceptedAt", "Accepted on", "Abgenommen am"),
        ("case.acceptedMark", "Signature", "Unterschrift"),
        ("case.sentSheet", "Sheet sent", "Blatt gesendet"),
        ("case.acceptedReading", "Reading signed for", "Unterschriebener Messwert"),
        ("case.foundAtM", "Found at", "Gefunden bei"),
        ("case.found", "What was found", "Was gefunden wurde"),
        ("observation.after", "Made after", "Gemacht nach"),
        ("observation.corrects", "Corrects", "Berichtigt"),
        ("observation.reading", "What was seen", "Was gesehen wurde"),
        ("observation.struck", "Struck out because", "Gestrichen, weil"),
        ("visit.on", "Day", "Tag"),
        ("visit.at", "Time", "Uhrzeit"),
        ("visit.minutes", "Length", "Dauer"),
        ("visit.who", "Who goes", "Wer fährt"),
        ("visit.done", "Done", "Erledigt"),
        ("instrument.type", "Type", "Art"),
        ("instrument.type.multimeter", "Multimeter", "Multimeter"),
        ("instrument.type.capacitance-meter", "Capacitance meter", "Kapazitätsmessgerät"),
        ("instrument.type.battery", "Battery", "Batterie"),
        ("instrument.type.tone-sender", "Tone generator", "Tongenerator"),
        ("instrument.type.insulation-tester", "Insulation tester", "Isolationsprüfer"),
        ("instrument.type.reflectometer", "Reflectometer", "Reflektometer"),
        ("instrument.percent", "Error, share of the reading", "Fehler, Anteil der Anzeige"),
        ("instrument.digits", "Error, last digits", "Fehler, letzte Ziffern"),
        ("instrument.resolutionOhms", "Resolution", "Auflösung"),
        ("instrument.leadOhms", "Its test leads", "Seine Messleitungen"),
        ("conductor.material", "Material", "Material"),
        ("conductor.material.copper", "Copper", "Kupfer"),
        ("conductor.material.aluminium", "Aluminium", "Aluminium"),
        ("conductor.material.copper-clad-steel", "Copper-clad steel", "Stahl, kupferplattiert"),
        ("conductor.material.copper-clad-aluminium", "Copper-clad aluminium", "Aluminium, kupferplattiert"),
        ("conductor.areaMm2", "Section", "Querschnitt"),
        ("conductor.conductivityPercentIacs", "Conductivity, of copper's", "Leitfähigkeit, vom Kupfer"),
        ("conductor.ohmsPerKmAt20C", "Resistance at 20 °C", "Widerstand bei 20 °C"),
        ("conductor.capacitancePFPerM", "Capacitance to the soil", "Kapazität zur Erde"),
        ("conductor.metresInStock", "In stock", "Auf Lager"),
        ("conductor.pricePerM", "Price per metre", "Preis je Meter"),
        ("profile.sourceOhms", "Source resistance", "Quellenwiderstand"),
        ("profile.reachConstantOhmM", "Reach constant", "Reichweitenkonstante"),
        ("profile.frequencyHz", "Frequency", "Frequenz"),
        ("profile.lampAlarmOhms", "Lamp alarms from", "Lampe warnt ab"),
        ("profile.hasContinuityLamp", "Has a lamp for the loop", "Hat eine Lampe für die Schleife"),
        ("profile.sensorHeightM", "Sensor above the ground", "Sensor über dem Boden"),
        ("profile.bench", "Bench trial", "Prüfstandsversuch"),
        ("rates.taxPercent", "Tax on top in quotes", "Steuer auf Angeboten"),
        ("rates.pricesIncludeTax", "Prices include the tax", "Preise enthalten die Steuer"),
        ("rates.taxPerLine", "Tax is rounded on every line", "Steuer wird je Zeile gerundet"),
        ("rates.roundLines", "Lines are rounded to", "Zeilen werden gerundet auf"),
        ("rates.roundLines.0.01", "0.01: with cents", "0,01: mit Cent"),
        ("rates.roundLines.1", "1: without cents", "1: ohne Cent"),
        ("rates.roundTotal", "What is paid is rounded to", "Zu zahlen gerundet auf"),
        ("rates.roundTotal.0.01", "0.01", "0,01"),
        ("rates.roundTotal.0.05", "0.05", "0,05"),
        ("rates.roundTotal.0.1", "0.10", "0,10"),
        ("rates.roundTotal.0.5", "0.50", "0,50"),
        ("rates.roundTotal.1", "1.00", "1,00"),
        ("rates.roundHalves", "Halves are rounded", "Halbe werden gerundet"),
        ("rates.roundHalves.away", "Up (0.005 becomes 0.01)", "Auf (0,005 wird 0,01)"),
        ("rates.roundHalves.even", "To the even neighbour", "Zum geraden Nachbarn"),
        ("rates.labourPerHour", "Labour per hour", "Arbeit je Stunde"),
        ("rates.travelPerVisit", "Travel per visit", "Anfahrt je Besuch"),
        ("rates.ownerPatiencePerHour", "Owner's patience per hour", "Geduld des Besitzers je Stunde"),
        ("rates.steps", "Our minutes and parts", "Unsere Minuten und Teile"),
        ("rates.without", "Steps we do not do", "Schritte, die wir nicht machen"),
        ("rates.currency", "Currency", "Währung"),
        ("code.machine", "Machine", "Maschine"),
        ("code.shown", "What it shows", "Was sie anzeigt"),
        ("code.meaning", "What it means", "Was es bedeutet"),
        ("code.reading", "As an observation", "Als Befund"),
        ("code.profile", "Station and mower", "Station und Mäher"),
        ("photo.of", "Photo of", "Foto von"),
        ("photo.jointAtM", "Joint at", "Verbinder bei"),
        ("photo.caption", "Caption", "Bildunterschrift"),
        ("photo.takenAt", "Taken", "Aufgenommen"),
        ("photo.position", "Position", "Standort"),
        ("owner-link.secretHash", "Checksum of the link", "Prüfsumme des Links"),
        ("owner-link.expiresAt", "Good until", "Gültig bis"),
        ("owner-link.revoked", "Withdrawn", "Zurückgezogen"),
        ("owner-link.ask", "Asked first", "Zuerst gefragt"),
        ("owner-link.cannot", "Cannot do", "Kann nicht"),
        ("owner-link.lastUsedAt", "Last used", "Zuletzt benutzt"),
        ("instrument.percent?", "From the meter's manual, ohms range: “±(0.8 % + 2 digits)” has 0.8 here.", "Aus der Anleitung, Bereich Ohm: Bei „±(0,8 % + 2 Digits)“ steht hier 0,8."),
        ("instrument.digits?", "From the same line: 2 there.", "Aus derselben Zeile: dort 2."),
        ("instrument.resolutionOhms?", "The smallest step that the display shows.", "Der kleinste Schritt, den die Anzeige zeigt."),
        ("instrument.leadOhms?", "What it shows with its tips held together.", "Was es zeigt, wenn sich die Spitzen berühren."),
        ("conductor.conductivityPercentIacs?", "Only for clad wire, from its data sheet (% IACS).", "Nur bei plattiertem Draht, aus dem Datenblatt (% IACS)."),
        ("conductor.capacitancePFPerM?", "Measured on a sound wire in the ground; empty for a usual one.", "An einem heilen Draht im Boden gemessen; leer für einen üblichen."),
        ("profile.sourceOhms?", "The station's own resistance in series with the loop.", "Der eigene Widerstand der Station in Reihe mit der Schleife."),
        ("profile.reachConstantOhmM?", "How far the mower still receives, times the loop's ohms; from a bench trial.", "Wie weit der Mäher noch empfängt, mal Ohm der Schleife; aus einem Prüfstandsversuch."),
        ("profile.lampAlarmOhms?", "From this loop resistance on its lamp says that the wire is cut.", "Ab diesem Schleifenwiderstand meldet die Lampe einen Drahtbruch."),
        ("profile.frequencyHz?", "The signal's frequency, measured or from its data.", "Die Frequenz des Signals, gemessen oder aus den Daten."),
        ("rates.ownerPatiencePerHour?", "What an hour of the owner's help is taken to cost, so that not everything is asked of him.", "Was eine Stunde Mithilfe des Besitzers kosten soll, damit nicht alles ihm zufällt."),
        ("workshop.units", "Units", "Einheiten"),
        ("workshop.units.metric", "Metres", "Meter"),
        ("workshop.units.feet", "Feet", "Fuß"),
    ];

    /// <summary>What a kind of record is called.</summary>
    public string this[RecordKind kind] => _texts[Kebab(kind.ToString())];

    /// <summary>What a field is called.</summary>
    public string Label(RecordKind kind, string field) => Find(kind, field) ?? field;

    /// <summary>What a field means, where its name does not say; null where it does.</summary>
    public string? Hint(RecordKind kind, string field) => _texts.GetValueOrDefault($"{Kebab(kind.ToString())}.{field}?");

    /// <summary>What a word of a field is called.</summary>
    public string Word(RecordKind kind, string field, string word) => Find(kind, $"{field}.{word}") ?? word;

    /// <summary>Whether a text is there, under its own name or under the one for all kinds.</summary>
    public bool Has(RecordKind kind, string rest) => Find(kind, rest) is not null;

    private string? Find(RecordKind kind, string rest) =>
        _texts.TryGetValue($"{Kebab(kind.ToString())}.{rest}", out string? own) ? own : _texts.GetValueOrDefault($"*.{rest}");

    private static string Kebab(string member) => System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(member);
}
