using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <content>The workshop's mail server, and sheets sent by it.</content>
public sealed partial class Texts
{
    public string MailServer => Of("Mail server", "Mailserver");
    public string MailServerLong => Of("Where one is set, sheets can be sent from here, each at a touch. Without, they open in the mail program. Ask your mail provider for these.", "Ist einer eingetragen, lassen sich Blätter von hier senden, jedes auf einen Druck. Sonst öffnen sie sich im Mailprogramm. Die Angaben hat Ihr Mailanbieter.");
    public string MailHost => Of("Name of the server", "Name des Servers");
    public string MailPort => Of("Its port", "Sein Port");
    public string MailSecurityWord => Of("Encryption", "Verschlüsselung");
    public string MailSecurityName(MailSecurity security) => security switch
    {
        MailSecurity.StartTls => Of("STARTTLS (usually port 587)", "STARTTLS (meist Port 587)"),
        MailSecurity.Tls => Of("TLS (usually port 465)", "TLS (meist Port 465)"),
        MailSecurity.None => Of("none (same machine, or without a user)", "keine (gleicher Rechner, oder ohne Benutzer)"),
        _ => throw new ArgumentOutOfRangeException(nameof(security), security, "Has no name."),
    };

    public string MailUser => Of("User", "Benutzer");
    public string MailPassword => Of("Password", "Passwort");
    public string MailPasswordKept => Of("kept; type to change", "gespeichert; zum Ändern eingeben");
    public string MailFrom => Of("Letters come from", "Absender");
    public string MailSave => Of("Keep the mail server", "Mailserver speichern");
    public string MailRemove => Of("Forget it", "Vergessen");
    public string MailKept => Of("Kept. The password is not shown again.", "Gespeichert. Das Passwort wird nicht wieder angezeigt.");
    public string MailPortWrong => Of("The port is a number from 1 to 65535.", "Der Port ist eine Zahl von 1 bis 65535.");
    public string SendSheet => Of("Send it", "Senden");
    public string SendSheetLong(string from) => Of($"As text with the PDF, from {from}.", $"Als Text mit dem PDF, von {from}.");
    public string SendTo => Of("To", "An");
    public string Send => Of("Send", "Senden");
    public string SendAgain => Of("Send again", "Noch einmal senden");
    public string SendingNow => Of("Being handed to the mail server …", "Wird dem Mailserver übergeben …");
    public string SendToMissing => Of("The address is missing.", "Die Adresse fehlt.");
    public string SentTo(string to, string answer) => Of($"Sent to {to}: the mail server took it ({answer}).", $"Gesendet an {to}: der Mailserver hat es angenommen ({answer}).");
    public string LastSent(string when, string by, string what) => Of($"Last sent {when} by {by}: {what}", $"Zuletzt gesendet {when} von {by}: {what}");
    public string NotSent(MailFault fault, string answer) => fault switch
    {
        MailFault.NotSet => Of("Not sent: no mail server is set any more.", "Nicht gesendet: es ist kein Mailserver mehr eingetragen."),
        MailFault.Unreachable => Of($"Not sent: the mail server cannot be reached ({answer}).", $"Nicht gesendet: der Mailserver ist nicht zu erreichen ({answer})."),
        MailFault.SignIn => Of($"Not sent: the mail server does not take user and password ({answer}).", $"Nicht gesendet: der Mailserver nimmt Benutzer und Passwort nicht an ({answer})."),
        MailFault.Refused => Of($"Not sent: the mail server does not take the letter ({answer}).", $"Nicht gesendet: der Mailserver nimmt den Brief nicht an ({answer})."),
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "Has no words."),
    };
}
