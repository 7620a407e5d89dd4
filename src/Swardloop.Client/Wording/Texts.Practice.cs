using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <content>Practice yards.</content>
public sealed partial class Texts
{
    public string Practice => Of("Practice", "Üben");
    public string PracticeYards => Of("Practice yards", "Übungsgärten");
    public string PracticeYard => Of("Practice yard", "Übungsgarten");
    public string PracticeLong => Of(
        "A garden with a hidden fault. Ask what you would ask, repair what you would repair; it answers as such a garden would, and the money and minutes run. Afterwards your way stands beside the printed card's, the advice's and that of somebody who knew it.",
        "Ein Garten mit einem versteckten Fehler. Fragen und reparieren Sie wie in einem echten Fall: Der Garten antwortet, Geld und Minuten laufen mit. Danach steht Ihr Weg neben dem der gedruckten Karte, dem der Empfehlung und dem von jemandem, der alles wusste.");
    public string PracticeNeedsServer => Of("Practice needs the workshop's server, which keeps the fault hidden: without reception it waits. Nothing that was done is lost.", "Üben geht nur mit dem Server der Werkstatt, der den Fehler versteckt hält: ohne Empfang wartet es. Was gemacht ist, geht nicht verloren.");
    public string PracticeSimulated => Of("Simulated: nothing here is real, nothing is recorded with a real garden, and nothing counts towards the workshop's figures.", "Simuliert: Nichts hier ist echt, nichts steht bei einem echten Garten, nichts zählt zu den Zahlen der Werkstatt.");
    public string BeginPractice => Of("Begin a practice yard", "Einen Übungsgarten beginnen");
    public string Level => Of("How hard", "Wie schwer");
    public string LevelName(PracticeLevel level) => level switch
    {
        PracticeLevel.Easy => Of("Easy", "Leicht"),
        PracticeLevel.Usual => Of("Usual", "Üblich"),
        PracticeLevel.Hard => Of("Hard", "Schwer"),
        _ => throw new ArgumentOutOfRangeException(nameof(level), level, "Has no name."),
    };

    public string LevelWords(PracticeLevel level) => level switch
    {
        PracticeLevel.Easy => Of("One fault; everything asked is done; nobody errs.", "Ein Fehler; alles Gefragte geht; niemand irrt sich."),
        PracticeLevel.Usual => Of("As calls come: people err at times, some things cannot be done, now and then there are two faults.", "Wie im Alltag: Manchmal irrt sich jemand, manches geht nicht, ab und zu sind es zwei Fehler."),
        PracticeLevel.Hard => Of("Something that is usually so is not: what, is for you to find.", "Etwas, das sonst stimmt, stimmt hier nicht: was, ist herauszufinden."),
        _ => throw new ArgumentOutOfRangeException(nameof(level), level, "Has no words."),
    };

    public string Begin => Of("Begin", "Beginnen");
    public string PracticeNone => Of("None yet. Begin with an easy one.", "Noch keiner. Ein leichter ist ein guter Anfang.");
    public string PracticeOpen => Of("goes on", "läuft");
    public string PracticeGaveUp => Of("left broken", "nicht repariert");
    public string PracticeCured => Of("mower runs", "Mäher läuft");
    public string Spent => Of("Spent", "Ausgegeben");
    public string SoFar(string money, string minutes) => Of($"{money}, {minutes} min so far", $"bisher {money}, {minutes} min");
    public string StepsWord => Of("Steps", "Schritte");
    public string StepCount(int steps) => Of(steps == 1 ? "1 step" : $"{steps} steps", steps == 1 ? "1 Schritt" : $"{steps} Schritte");
    public string You => Of("You", "Sie");
    public string PrintedCard => Of("Printed card", "Gedruckte Karte");
    public string TheAdvice => Of("The advice", "Die Empfehlung");
    public string WhoKnew => Of("Who knew it", "Wer alles wusste");
    public string Times(string factor) => Of($"{factor} times", $"{factor}-fach");
    public string AgainstKnown => Of("Against who knew", "Gegen Wissende");
    public string PracticeProgress(int count, string mean, int before, string meanBefore) => Of(
        $"Your last {count}: on average {mean} times what somebody would have spent who knew it; the {before} before: {meanBefore} times.",
        $"Ihre letzten {count}: im Mittel das {mean}-Fache dessen, was jemand ausgegeben hätte, der alles wusste; die {before} davor: das {meanBefore}-Fache.");
    public string PracticeMean(int count, string mean) => Of(
        count == 1 ? $"Your first: {mean} times what somebody would have spent who knew it." : $"Your {count}: on average {mean} times what somebody would have spent who knew it.",
        count == 1 ? $"Ihr erster: das {mean}-Fache dessen, was jemand ausgegeben hätte, der alles wusste." : $"Ihre {count}: im Mittel das {mean}-Fache dessen, was jemand ausgegeben hätte, der alles wusste.");
    public string PracticeChart(int count, string last) => Of($"{count} ended practice yards in order, spent against who knew it; the last {last} times", $"{count} beendete Übungsgärten der Reihe nach, Ausgaben gegen Wissende; zuletzt das {last}-Fache");
    public string PracticeChartCaption => Of("Each point an ended yard: spent, as a multiple of what somebody spends who knew it (line at 1). Lower is better.", "Jeder Punkt ein beendeter Garten: Ausgaben als Vielfaches dessen, was jemand ausgibt, der alles wusste (Linie bei 1). Weniger ist besser.");

    // One yard
    public string TheOwnerSays => Of("The owner says", "Der Besitzer sagt");
    public string YourNextStep => Of("Your next step", "Ihr nächster Schritt");
    public string WhichStep => Of("Which step", "Welcher Schritt");
    public string DoStep => Of("Do it", "Machen");
    public string Doing => Of("Being done …", "Wird gemacht …");
    public string StepTakes(string minutes, string money) => Of($"About {minutes} min and {money}", $"Etwa {minutes} min und {money}");
    public string Took(string minutes, string money) => Of($"{minutes} min, {money}", $"{minutes} min, {money}");
    public string MinutesWord => Of("Minutes", "Minuten");
    public string WithTravel(string travel) => Of($"{travel} of it for the way there", $"davon {travel} für die Anfahrt");
    public string InARealGarden => Of("In a real garden, first", "In einem echten Garten zuerst");
    public string PracticeEndsWith => Of("It is over when a mower check finds the mower running. A repair alone does not end it.", "Zu Ende ist es, wenn die Mäherprobe einen laufenden Mäher zeigt. Eine Reparatur allein beendet es nicht.");
    public string EndPractice => Of("Give up and show what it was", "Aufgeben und zeigen, was es war");
    public string EndPracticeLong => Of("Whoever leaves the mower broken pays the printed card's way on top.", "Wer den Mäher kaputt lässt, zahlt den Weg der gedruckten Karte dazu.");
    public string KnownBefore => Of("Known before", "Vorher bekannt");
    public string ThePlacesAreMetres => Of("Places count along the wire from terminal A.", "Orte zählen den Draht entlang ab Klemme A.");

    // The end
    public string WhatItWas => Of("What it was", "Was es war");
    public string Harmless => Of("harms nobody", "schadet nicht");
    public string MetresOnWire(string length, string wire) => Of($"{length} along {wire}", $"{length} auf {wire}");
    public string SideBySide => Of("Side by side", "Nebeneinander");
    public string WithTheCard(string money) => Of($"{money} with the card's way on top", $"{money} mit dem Weg der Karte dazu");
    public string WhatWasItWorth => Of("What your steps were worth", "Was Ihre Schritte wert waren");
    public string WorthHint => Of(
        "By the advice's reckoning: worth is by how much a step brought the expected cost to the finish down. What is worth more than it cost was well asked. The chance is the one given to what was truly wrong.",
        "Nach der Rechnung der Empfehlung: Wert ist, um wie viel ein Schritt die erwarteten Kosten bis zum Ende gesenkt hat. Was mehr wert war, als es kostete, war gut gefragt. Die Wahrscheinlichkeit gilt dem, was wirklich war.");
    public string Paid => Of("Paid", "Bezahlt");
    public string Worth => Of("Worth", "Wert");
    public string TruthChance => Of("Chance of the truth", "Wahrscheinlichkeit der Wahrheit");
    public string FromTo(string from, string to) => Of($"{from}, then {to}", $"{from}, dann {to}");
    public string Mended => Of("mended", "behoben");
    public string AdviceWouldHave => Of("The advice would have", "Die Empfehlung hätte");
    public string TheSame => Of("the same", "dasselbe");
    public string Ended => Of("ended", "beendet");
    public string Reckoned(int done, int all) => Of($"Being reckoned, {done} of {all} …", $"Wird gerechnet, {done} von {all} …");
    public string EnginePlays(int steps) => Of($"The advice plays the same yard, {StepCount(steps)} so far …", $"Die Empfehlung spielt denselben Garten, bisher {StepCount(steps)} …");
    public string GoOnReckoning => Of("Go on", "Weiter");
    public string SameYardAgain(string world, long seed) => Of($"The same yard on the command line: swardloop trial --world {world} --yard 0 --seed {seed}", $"Derselbe Garten auf der Befehlszeile: swardloop trial --world {world} --yard 0 --seed {seed}");
    public string AnotherPractice => Of("Another practice yard", "Noch ein Übungsgarten");
    public string WayOf(string who) => Of($"The way: {who}", $"Der Weg: {who}");
}
