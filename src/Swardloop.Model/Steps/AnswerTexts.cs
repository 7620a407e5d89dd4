using System.Collections.Frozen;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Model.Steps;

/// <summary>What the fields of a step's form and the answers to choose from are called, in one language: plain enough for an owner.
/// Another language is another column. Immutable.</summary>
public sealed class AnswerTexts
{
    private readonly FrozenDictionary<string, string> _texts;

    private AnswerTexts(Func<(string Key, string English, string German), string> column) =>
        _texts = Table.ToFrozenDictionary(row => row.Key, column, StringComparer.Ordinal);

    /// <summary>English.</summary>
    public static AnswerTexts English { get; } = new(row => row.English);

    /// <summary>German.</summary>
    public static AnswerTexts German { get; } = new(row => row.German);

    private static (string Key, string English, string German)[] Table =>
    [
        ("*.atM", "Where, along the wire from terminal A", "Wo, am Draht entlang ab Klemme A"),
        ("*.fromM", "Start of the stretch, from terminal A", "Anfang des Stücks, ab Klemme A"),
        ("*.toM", "End of the stretch, from terminal A", "Ende des Stücks, ab Klemme A"),
        ("*.from", "From which terminal", "Von welcher Klemme"),
        ("*.from.A", "A", "A"),
        ("*.from.B", "B", "B"),
        ("*.leadOhms", "The meter's leads", "Messleitungen"),
        ("*.meter", "The meter's accuracy", "Genauigkeit des Messgeräts"),
        ("*.found", "What was found", "Was gefunden wurde"),
        ("*.ohms", "The meter shows", "Das Messgerät zeigt"),
        ("outlet-check.value", "Does another appliance run there?", "Läuft dort ein anderes Gerät?"),
        ("outlet-check.value.live", "Yes, the outlet is live", "Ja, die Steckdose hat Strom"),
        ("outlet-check.value.dead", "No, the outlet is dead", "Nein, die Steckdose ist tot"),
        ("supply-voltage.loaded", "Measured while the station draws from it", "Gemessen, während die Station daran zieht"),
        ("supply-voltage.nominalVolts", "What the label says", "Was auf dem Schild steht"),
        ("supply-voltage.volts", "Measured at the low-voltage plug", "Am Kleinspannungsstecker gemessen"),
        ("station-lamp.value", "What does the lamp show?", "Was zeigt die Lampe?"),
        ("station-lamp.value.off", "Dark", "Dunkel"),
        ("station-lamp.value.normal", "As always", "Wie immer"),
        ("station-lamp.value.flicker", "Unsteady, flickers", "Unruhig, flackert"),
        ("station-lamp.value.alarm", "Alarm", "Alarm"),
        ("mower-start.place", "Where was it started?", "Wo wurde er gestartet?"),
        ("mower-start.place.at-wire", "Beside the wire", "Neben dem Draht"),
        ("mower-start.place.mid-lawn", "In the middle of the lawn", "Mitten auf dem Rasen"),
        ("mower-start.value", "What did it do?", "Was hat er getan?"),
        ("mower-start.value.runs", "It mows", "Er mäht"),
        ("mower-start.value.no-signal", "It reports no signal", "Er meldet kein Signal"),
        ("mower-start.value.outside", "It reports that it is outside", "Er meldet, dass er draußen ist"),
        ("mower-reach.distanceM", "How far from the nearest wire", "Wie weit vom nächsten Draht"),
        ("mower-reach.bound", "What happened there?", "Was geschah dort?"),
        ("mower-reach.bound.exact", "It turned back or stopped there", "Er kehrte dort um oder blieb stehen"),
        ("mower-reach.bound.at-least", "It covered everything, and would go at least that far", "Er kam überall hin, mindestens so weit"),
        ("follow-wire.value", "How did it follow the wire home?", "Wie fuhr er am Draht heim?"),
        ("follow-wire.value.steady", "Straight home", "Ruhig heim"),
        ("follow-wire.value.wavering", "Swaying", "Schwankend"),
        ("follow-wire.value.lost", "It lost its way", "Er verlor den Weg"),
        ("wire-crossing.nearMetal", "Metal within a step of it", "Metall einen Schritt daneben"),
        ("wire-crossing.value", "Did it turn at the wire?", "Kehrte er am Draht um?"),
        ("wire-crossing.value.respected", "Yes, it turned", "Ja, er kehrte um"),
        ("wire-crossing.value.crossed", "No, it went over the wire", "Nein, er fuhr über den Draht"),
        ("insulation.testVolts", "The tester's voltage", "Prüfspannung"),
        ("insulation.megohms", "Insulation", "Isolation"),
        ("earth-ratio.voltsA", "From A to the stake", "Von A zum Erdspieß"),
        ("earth-ratio.voltsB", "From B to the stake", "Von B zum Erdspieß"),
        ("earth-ratio.voltsAForward", "A to the stake, with its sign", "A zum Erdspieß, mit Vorzeichen"),
        ("earth-ratio.voltsBForward", "B to the stake, with its sign", "B zum Erdspieß, mit Vorzeichen"),
        ("earth-ratio.voltsAReversed", "Battery turned round: A to the stake", "Batterie umgedreht: A zum Erdspieß"),
        ("earth-ratio.voltsBReversed", "Battery turned round: B to the stake", "Batterie umgedreht: B zum Erdspieß"),
        ("end-capacitance.nanofaradA", "From end A to the stake", "Von Ende A zum Erdspieß"),
        ("end-capacitance.nanofaradB", "From end B to the stake", "Von Ende B zum Erdspieß"),
        ("split-resistance.ohmsA", "From the opening to A, lead included", "Von der Öffnung nach A, mit Messleitung"),
        ("split-resistance.ohmsB", "From the opening to B, lead included", "Von der Öffnung nach B, mit Messleitung"),
        ("tone-trace.value", "How strong is the tone?", "Wie stark ist der Suchton?"),
        ("tone-trace.value.strong", "Strong", "Stark"),
        ("tone-trace.value.weak", "Weak", "Schwach"),
        ("tone-trace.value.none", "None", "Keiner"),
        ("reflection.delayNs", "Delay, there and back", "Laufzeit hin und zurück"),
        ("reflection.kind", "What does the echo show?", "Was zeigt das Echo?"),
        ("reflection.kind.open", "An open circuit", "Eine Unterbrechung"),
        ("reflection.kind.short", "A short circuit", "Einen Kurzschluss"),
        ("reflection.kind.none", "No echo", "Kein Echo"),
        ("look.value", "What did you see?", "Was war zu sehen?"),
        ("look.value.damage", "Damage", "Schaden"),
        ("look.value.nothing", "Nothing unusual", "Nichts Auffälliges"),
        ("substitute-loop.value", "Inside the test loop", "In der Prüfschleife"),
        ("substitute-loop.value.runs", "It runs", "Er läuft"),
        ("substitute-loop.value.no-signal", "No signal", "Kein Signal"),
        ("substitute-mower.value", "The other mower", "Der andere Mäher"),
        ("substitute-mower.value.runs", "It runs", "Er läuft"),
        ("substitute-mower.value.no-signal", "No signal", "Kein Signal"),
        ("neighbour-off.value", "With the neighbour's station off", "Mit ausgesteckter Station des Nachbarn"),
        ("neighbour-off.value.cured", "The trouble is gone", "Der Fehler ist weg"),
        ("neighbour-off.value.same", "It is the same", "Es ist gleich"),
        ("ac-ratio.hertz", "Frequency of the tone", "Frequenz des Tons"),
        ("ac-ratio.voltsA", "From A to the stake", "Von A zum Erdspieß"),
        ("ac-ratio.voltsB", "From B to the stake", "Von B zum Erdspieß"),
        ("guide-resistance.guide", "Which guide wire", "Welcher Leitdraht"),
        ("guide-resistance.ohmsA", "From wire end A to the guide wire", "Von Drahtende A zum Leitdraht"),
        ("guide-resistance.ohmsB", "From wire end B to the guide wire", "Von Drahtende B zum Leitdraht"),
        ("joint-drop.milliamps", "Current through the loop", "Strom durch die Schleife"),
        ("joint-drop.millivolts", "Voltage across the joint", "Spannung über dem Verbinder"),
        ("pin-probe.ohmsA", "From the needle to A, lead included", "Von der Nadel nach A, mit Leitung"),
        ("pin-probe.ohmsB", "From the needle to B, lead included", "Von der Nadel nach B, mit Leitung"),
        ("earth-gradient.spacingM", "Distance between the stakes", "Abstand der Erdspieße"),
        ("earth-gradient.microvolts", "The meter shows", "Das Messgerät zeigt"),
        ("earth-gradient.value", "Where does the current leave the wire?", "Wo verlässt der Strom den Draht?"),
        ("earth-gradient.value.ahead", "Further on, towards B", "Weiter vorn, nach B hin"),
        ("earth-gradient.value.behind", "Behind, towards A", "Weiter hinten, nach A hin"),
        ("earth-gradient.value.here", "Here", "Hier"),
        ("earth-gradient.value.nothing", "Nothing to be told", "Nichts zu erkennen"),
        ("terminal-look.value", "What do the wire ends look like?", "Wie sehen die Drahtenden aus?"),
        ("terminal-look.value.sound", "Bright and tight", "Blank und fest"),
        ("terminal-look.value.loose", "Loose", "Locker"),
        ("terminal-look.value.corroded", "Green, black or wet", "Grün, schwarz oder nass"),
        ("wiggle.value", "What did the meter do?", "Was tat das Messgerät?"),
        ("wiggle.value.steady", "It stayed steady", "Es stand ruhig"),
        ("wiggle.value.jumps", "It jumped", "Es sprang"),
        ("charge-check.value", "Does the mower charge?", "Lädt der Mäher?"),
        ("charge-check.value.charges", "Yes, it charges", "Ja, er lädt"),
        ("charge-check.value.does-not", "No, it does not", "Nein, er lädt nicht"),
        ("mower-check.value", "Does the mower run?", "Läuft der Mäher?"),
        ("mower-check.value.runs", "Yes, it runs", "Ja, er läuft"),
        ("mower-check.value.same", "No, it is the same", "Nein, es ist gleich"),
    ];

    /// <summary>What a field of a step's form is called.</summary>
    /// <exception cref="KeyNotFoundException">The form of the step has no such field.</exception>
    public string Label(StepKind step, StepField field) => Find(step, field.Name);

    /// <summary>What one of the words that a field allows is called.</summary>
    /// <exception cref="KeyNotFoundException">The field does not allow the word.</exception>
    public string Answer(StepKind step, StepField field, string word) => Find(step, $"{field.Name}.{word}");

    private string Find(StepKind step, string rest) =>
        _texts.TryGetValue($"{WireName.Of(step)}.{rest}", out string? own) ? own : _texts[$"*.{rest}"];
}
