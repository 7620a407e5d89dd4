using Swardloop.Core.Diagnosis;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <summary>Lists of everything, the first day of a workshop, invitations, and the case on paper.</summary>
public sealed partial class Texts
{
    public string Lists => Of("Lists", "Listen");
    public string Owners => Of("Owners", "Besitzer");
    public string Removed => Of("Put away", "Abgelegt");
    public string RemovedLong => Of("What was put away stands on no other list. Nothing of it is lost.", "Was abgelegt ist, steht auf keiner anderen Liste. Nichts davon ist verloren.");
    public string NothingRemoved => Of("Nothing was put away.", "Nichts ist abgelegt.");
    public string FilterWords => Of("Any word, or digits of a telephone number", "Ein Wort, oder Ziffern einer Telefonnummer");
    public string AllStates => Of("all", "alle");
    public string NotClosed => Of("not closed", "nicht abgeschlossen");
    public string WithOpenCase => Of("with an open case", "mit offenem Fall");
    public string SoonSilent => Of("soon without signal", "bald ohne Signal");
    public string Without => Of("without a reading", "ohne Messung");
    public string Town => Of("Town", "Ort");
    public string SinceWhen => Of("Opened", "Eröffnet");
    public string AnyTime => Of("any time", "irgendwann");
    public string SortBy => Of("Order", "Reihenfolge");
    public string ByName => Of("by name", "nach Namen");
    public string ByLastReading => Of("last reading first", "letzte Messung zuerst");
    public string ByOldestReading => Of("longest not measured first", "am längsten ungemessen zuerst");
    public string ByTrouble => Of("what is wrong first", "was nicht stimmt, zuerst");
    public string NewestFirst => Of("newest first", "neueste zuerst");
    public string OldestFirst => Of("oldest first", "älteste zuerst");
    public string ByPromise => Of("by promise", "nach Zusage");
    public string LastReading => Of("Last reading", "Letzte Messung");
    public string WhatIsUp => Of("What is wrong", "Was los ist");
    public string FoundOrLikely => Of("Found, or likeliest", "Gefunden, oder am ehesten");
    public string YardCount => Of("Yards", "Gärten");
    public string OpenCaseCount => Of("Open cases", "Offene Fälle");
    public string TheKind => Of("What", "Was");
    public string NoOwners => Of("No owner yet.", "Noch kein Besitzer.");
    public string OpenLoop => Of("open circuit", "Unterbrechung");

    public string LastDays(int days) => Of($"in the last {days} days", $"in den letzten {days} Tagen");

    // The first day
    public string FirstStepsTitle => Of("Three steps to the first advice", "Drei Schritte bis zum ersten Rat");
    public string FirstOwner => Of("Somebody calls: enter name and telephone.", "Jemand ruft an: Name und Telefon eintragen.");
    public string FirstYard => Of("Draw the lawn and the wire round it: two lengths by tape are enough to begin with.", "Rasen und Draht zeichnen: zwei Längen mit dem Bandmaß genügen für den Anfang.");
    public string FirstCase => Of("Write down what is wrong in the owner's words. The first advice follows at once.", "Aufschreiben, was los ist, mit den Worten des Besitzers. Der erste Rat folgt sofort.");
    public string FirstOwnerButton => Of("Enter the owner", "Besitzer eintragen");
    public string FirstYardButton => Of("Draw the yard", "Garten zeichnen");
    public string FirstCaseButton => Of("Enter the case", "Fall eintragen");
    public string StepDone => Of("done", "erledigt");
    public string RatesPlaceholder => Of("Pale figures hold as long as nothing is entered.", "Blasse Zahlen gelten, solange nichts eingetragen ist.");

    // An invitation
    public string Invite => Of("Invite a person", "Person einladen");
    public string InviteLong => Of("You choose no password for others: the invitation has a code that is good once and for some days, and everybody chooses their own.", "Niemand wählt ein Passwort für andere: Die Einladung enthält einen Code, der einmal und einige Tage lang gilt; ein Passwort wählt jeder selbst.");
    public string InvitationReady => Of("The invitation", "Die Einladung");
    public string InvitationOnce => Of("The code is shown only now. Send it to this person and to nobody else.", "Der Code wird nur jetzt gezeigt. Nur dieser Person schicken, sonst niemandem.");
    public string CopyInvitation => Of("Copy the invitation", "Einladung kopieren");
    public string PasswordOrCode => Of("Password, or one-time code", "Passwort oder Einmalcode");

    public string Invitation(string name, string address, string email, string code, string until) => Of(
        $"Hello {name}, you have an account at our workshop. Open {address}, sign in with {email} and this one-time code: {code}\nIt is good until {until}. Then you choose your own password.",
        $"Guten Tag {name}, Sie haben ein Konto in unserer Werkstatt. Öffnen Sie {address} und melden Sie sich mit {email} und diesem Einmalcode an: {code}\nEr gilt bis {until}. Danach wählen Sie Ihr eigenes Passwort.");

    // A case on paper
    public string Print => Of("Print or PDF", "Drucken oder PDF");
    public string PrintedAt(string when) => Of($"Printed {when}", $"Gedruckt {when}");
    public string PaperReadings => Of("What was measured and seen", "Was gemessen und gesehen wurde");
    public string PaperNone => Of("nothing yet", "noch nichts");
    public string PaperDone => Of("Done", "Gemacht");
    public string PaperLast => Of("Last reading, leads taken off (Ω)", "Letzte Messung, ohne Leitungen (Ω)");
    public string PaperSignature => Of("Date and signature", "Datum und Unterschrift");
    public string PaperOwner => Of("Owner", "Besitzer");
    public string PaperAddress => Of("Address", "Anschrift");
    public string PaperMore(int count) => Of($"… and {count} earlier", $"… und {count} frühere");

    // What is done at a place
    public string TestHere => Of("test here next", "hier als Nächstes prüfen");
    public string LookHere => Of("look here next", "hier als Nächstes nachsehen");
    public string MendHere => Of("mend here next", "hier als Nächstes reparieren");

    /// <summary>What a step does at its place on the wire.</summary>
    public string DoHere(StepKind step) =>
        StepCatalogue.Of(step).IsRepair ? MendHere : step is StepKind.Look or StepKind.TerminalLook or StepKind.FollowWire ? LookHere : TestHere;

    // Readings in the garden
    public string LeadsQuestion => Of("The meter's leads touched together, once a visit", "Messleitungen aneinandergehalten, einmal je Besuch");
    public string LessLeads(string shown, string leads, string left) => Of($"{shown} less leads {leads} = {left}", $"{shown} ohne Leitungen {leads} = {left}");
    public string Again => Of("Measured again", "Noch einmal gemessen");
    public string MeanOf(string readings, string mean) => Of($"Mean of {readings}: {mean}", $"Mittel aus {readings}: {mean}");
    public string TwoReadings => Of("Measured twice? Type both with ; between: the mean counts.", "Zweimal gemessen? Beides mit ; dazwischen eingeben: Das Mittel zählt.");
    public string BeforeCovering => Of("Measure now, before it is covered", "Jetzt messen, vor dem Zudecken");
    public string CannotBeMet => Of("One of these cannot be met", "Etwas davon geht hier nicht");

    // Files
    public string OutlineOnly(string file) => Of($"{file} has the outline of a lawn, but no wire.", $"{file} enthält den Umriss eines Rasens, aber keinen Draht.");
    public string UseOutline => Of("Use the outline as lawn and wire", "Den Umriss als Rasen und als Draht nehmen");
    public string DropDrawing => Of("A file may be dropped anywhere on this page.", "Eine Datei lässt sich auch irgendwo auf diese Seite ziehen.");

    /// <summary>What a server's problem is about, as the subject of its sentence; null for what has no name of its own.</summary>
    private string? Subject(string place) => place.Split('.', '/')[^1] switch
    {
        "password" => Of("The password", "Das Passwort"),
        "current" => Of("The password now", "Das jetzige Passwort"),
        "name" => Of("The name", "Der Name"),
        "email" => Of("The e-mail address", "Die E-Mail-Adresse"),
        "code" => Of("The one-time code", "Der Einmalcode"),
        "role" => Of("The role", "Die Rolle"),
        _ => null,
    };

    /// <summary>A problem that the server found, with its subject: "The password is too easy to guess".</summary>
    public string Problem(FieldProblem problem)
    {
        string said = Problem(problem.Message, problem.Allowed);
        return Subject(problem.Place) is not { } subject ? said
            : problem.Message.Split(' ')[0] is "is" or "has" or "cannot" or "must" ? $"{subject} {said}"
            : $"{subject}: {said}";
    }

    /// <summary>A problem of one's own device, with the field it is about.</summary>
    public string Problem(string field, Problem problem) => $"{field}: {Problem(problem.Message, problem.Allowed)}";
}
