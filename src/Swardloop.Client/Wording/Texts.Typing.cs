namespace Swardloop.Client.Wording;

/// <summary>What is said of things typed, not yet kept, or just done by mistake.</summary>
public sealed partial class Texts
{
    public string TypedMeanwhile => Of("Typed and not kept", "Getippt und nicht gesichert");
    public string ChangedMeanwhile(string by) => Of($"Changed meanwhile{(by.Length > 0 ? $" by {by}" : "")}. Which one holds?", $"Inzwischen geändert{(by.Length > 0 ? $" von {by}" : "")}. Was gilt?");
    public string TypedBefore => Of("This was typed here earlier and not kept.", "Das wurde hier vorhin getippt und nicht gesichert.");
    public string KeepMine => Of("Keep mine", "Meins behalten");
    public string TakeTheirs => Of("Take theirs", "Das andere nehmen");
    public string LeaveAsItIs => Of("Leave as it is", "Lassen, wie es ist");
    public string FilledBefore => Of("This was filled in earlier and not added.", "Das wurde vorhin ausgefüllt und nicht hinzugefügt.");
    public string BeginAnew => Of("Begin anew", "Neu anfangen");
    public string HalfFilled(string form) => Of($"“{form}” is half filled in.", $"„{form}“ ist halb ausgefüllt.");
    public string GoOn => Of("Go on with it", "Weiter ausfüllen");
    public string OpenWithoutComplaint => Of("Nothing stands under what is wrong. Press again to open the case without it.", "Unter „Was ist los?“ steht nichts. Noch einmal drücken öffnet den Fall ohne.");
    public string Undo => Of("Undo", "Rückgängig");
    public string WasAdded(string name) => Of($"Added: {name}.", $"Hinzugefügt: {name}.");
    public string CaseWasOpened => Of("The case is open.", "Der Fall ist angelegt.");
    public string WasUndone => Of("Undone.", "Rückgängig gemacht.");
    public string WasRecorded => Of("Recorded.", "Eingetragen.");
    public string IsPutAway(string kind) => Of($"{kind} put away: on no list but that of what is put away.", $"{kind} abgelegt: nur noch auf der Liste des Abgelegten.");
    public string PutAwayHint => Of("Made by mistake, or over. Nothing is erased, and it can be brought back.", "Aus Versehen angelegt oder vorbei. Nichts wird gelöscht, und es lässt sich zurückholen.");
    public string HangsOnIt(string what) => Of($"It can be put away when nothing hangs on it any more. Now there is: {what}.", $"Ablegen geht, wenn nichts mehr daran hängt. Jetzt gibt es: {what}.");
    public string WasPutAway => Of("Put away.", "Abgelegt.");
    public string BringBack => Of("Bring it back", "Zurückholen");
    public string PutAway => Of("Put it away", "Ablegen");
    public string CautionsTicked(int count) => Of(count == 1 ? "1 caution ticked" : $"{count} cautions ticked", count == 1 ? "1 Vorsichtsregel abgehakt" : $"{count} Vorsichtsregeln abgehakt");
    public string ReallyAsk => Of("Is that right? Press again to keep it.", "Stimmt das? Noch einmal drücken sichert es.");
    public string LoopDoubt(string ohms) => Of($"{ohms} is far more than any whole loop has. Over-range (OL) is more likely for a broken one.", $"{ohms} ist viel mehr, als eine intakte Schleife hat. Bei einem Bruch zeigt das Messgerät eher OL.");
    public string DistanceDoubt(string metres, string most) => Of($"{metres} is farther than this lawn is wide: {most} from end to end.", $"{metres} ist weiter, als dieser Rasen reicht: {most} von Ende zu Ende.");
    public string ByMistake => Of("by mistake", "aus Versehen");
    public string AllEntries => Of("All entries", "Alle Einträge");
    public string CountAgain => Of("Count it again", "Wieder gelten lassen");
    public string RecordNotDone => Of("It could not be done", "Das ging nicht");
    public string NextIs(string step, string? place) => Of($"Next: {step}{(place is null ? "" : $", {place}")}.", $"Als Nächstes: {step}{(place is null ? "" : $", {place}")}.");
    public string NextElsewhere => Of("That is elsewhere on purpose: there a look tells most for its cost.", "Das ist mit Absicht woanders: Dort sagt ein Versuch am meisten für seinen Preis.");
    public string Understood(string number) => Of($"= {number}", $"= {number}");
}
