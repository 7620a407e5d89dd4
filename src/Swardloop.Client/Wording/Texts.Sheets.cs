namespace Swardloop.Client.Wording;

/// <content>Sheets that go out, signing, and the calendar.</content>
public sealed partial class Texts
{
    public string Sheets => Of("Sheets", "Blätter");
    public string SheetsLong => Of("What goes out, made from the case as it stands at the workshop.", "Was hinausgeht, aus dem Fall, wie er in der Werkstatt liegt.");
    public string SheetsWait(int changes) => Of($"{changes} changes of this device have not reached the workshop yet; they are not on the sheet.", $"{changes} Änderungen dieses Geräts sind noch nicht in der Werkstatt; sie stehen nicht auf dem Blatt.");
    public string WhichSheet => Of("Which sheet", "Welches Blatt");
    public string SheetName(string kind) => kind switch
    {
        "found" => Of("What we found", "Was wir gefunden haben"),
        "acceptance" => Of("Acceptance", "Abnahme"),
        "work" => Of("Work sheet", "Arbeitsblatt"),
        "quote" => Of("Quote", "Angebot"),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Has no name."),
    };

    public string SheetLanguage => Of("Language of the sheet", "Sprache des Blatts");
    public string SheetAsText => Of("As a message", "Als Nachricht");
    public string MakingSheet => Of("Being made …", "Wird gemacht …");
    public string SavePdf => Of("Save as PDF", "Als PDF sichern");
    public string OpenAsPage => Of("Web page", "Webseite");
    public string OpenInMail => Of("Open in the mail program", "Im Mailprogramm öffnen");
    public string SaveAsMessage => Of("Message file with the PDF (.eml)", "Nachrichtendatei mit dem PDF (.eml)");
    public string NothingIsSent => Of("These send nothing: your mail program shows it, and you send it.", "Diese senden nichts: Ihr Mailprogramm zeigt es, und Sie senden es.");
    public string SheetNeedsServer => Of("Sheets are made at the workshop: they need reception.", "Blätter werden in der Werkstatt gemacht: sie brauchen Empfang.");
    public string SignHere => Of("Sign the acceptance", "Abnahme unterschreiben");
    public string SignLong => Of("Hand the device over, or type the name and sign with the finger. It stands on the acceptance sheet.", "Gerät reichen, oder den Namen eingeben und mit dem Finger unterschreiben. Es steht auf dem Abnahmeblatt.");
    public string WhoSigns => Of("Who signs", "Wer unterschreibt");
    public string SignatureField => Of("Field to sign in with a finger or the mouse; the name alone is enough too", "Feld zum Unterschreiben mit Finger oder Maus; der Name allein genügt auch");
    public string SignAgain => Of("Clear the field", "Feld leeren");
    public string Accept => Of("Accepted", "Abgenommen");
    public string AcceptedBy(string who, string when) => Of($"Accepted by {who}, {when}.", $"Abgenommen von {who}, {when}.");
    public string TakeBackAcceptance => Of("Take it back", "Zurücknehmen");
    public string NameToSign => Of("The name of whoever signs is missing.", "Der Name fehlt.");
    public string ToCalendar => Of("For the calendar (.ics)", "Für den Kalender (.ics)");
    public string RoundingWord => Of("Tax and rounding on quotes", "Steuer und Rundung auf Angeboten");
    public string RoundingHint => Of("Empty: to the cent, tax once on the sum, halves up. Where what is paid differs from the sum, the difference stands in a row of its own.", "Leer: auf den Cent, Steuer einmal auf die Summe, Halbe auf. Wo zu zahlen ist, was nicht die Summe ist, steht der Unterschied in einer eigenen Zeile.");
    public string VisitSummary(string yard) => Of($"Visit: {yard}", $"Besuch: {yard}");
}
