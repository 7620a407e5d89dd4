using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <content>Sessions, forgetting, the workshop's address.</content>
public sealed partial class Texts
{
    public string PublicAddressHint => Of(
        "Where owners reach this server, such as https://lawns.example.org. Stands in their links and QR codes; empty: the address in this browser's own line.",
        "Wo Besitzer diesen Server erreichen, etwa https://lawns.example.org. Steht in ihren Links und QR-Codes; leer: die Adresse, unter der diese Seite offen ist.");

    public string SignedInWhere => Of("Signed in where", "Wo angemeldet");
    public string SignedInHint => Of("A lost telephone: end its session here. It shows nothing more from then on, but for what it holds itself.", "Ein Telefon ist weg: seine Sitzung hier beenden. Es bekommt ab dann nichts mehr; was auf ihm liegt, bleibt dort.");
    public string UnknownDevice => Of("unknown device", "unbekanntes Gerät");
    public string ThisOne => Of("this one", "dieses");
    public string EndSession => Of("End", "Beenden");
    public string LookAgain => Of("Look again", "Neu laden");

    public string SessionTimes(string started, string seen) => Of($"since {started}, last seen {seen}", $"seit {started}, zuletzt {seen}");

    public string ForgetElsewhere => Of("in another yard", "in einem anderen Garten");

    public string ForgetGoes(int texts, int photos, int links) => Of(
        $"These {texts} texts go, {photos} photos, and {links} links stop opening. Take the tick from what names nobody and shall stay.",
        $"Diese {texts} Texte gehen, {photos} Fotos, und {links} Links öffnen nicht mehr. Was niemanden nennt und bleiben soll: Haken wegnehmen.");

    public string ForgetWent(ForgetReport report) => Of(
        $"{report.Texts} texts of {report.Records} records were emptied, {report.Photos} photos deleted, {report.Links} links closed; {report.Kept} texts were kept.",
        $"{report.Texts} Texte aus {report.Records} Einträgen sind geleert, {report.Photos} Fotos gelöscht, {report.Links} Links geschlossen; {report.Kept} Texte blieben.");

    public string ForgetRemains(string at) => Of(
        $"Backups made before {at} still hold all of it: delete them, or forget the owner again after restoring one.",
        $"Sicherungen von vor {at} enthalten noch alles: löschen, oder nach dem Zurückholen den Besitzer erneut vergessen.");

    public string ForgetFiles(string files) => Of($"Beside the database these files may hold it too: {files}.", $"Neben der Datenbank können auch diese Dateien es enthalten: {files}.");

    public string OtherWorkshop => Of("was saved in another workshop, or in the demo; it is not taken in here", "wurde in einer anderen Werkstatt oder in der Vorführung gesichert und wird hier nicht übernommen");
}
