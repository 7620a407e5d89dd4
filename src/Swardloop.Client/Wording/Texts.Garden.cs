using Swardloop.Core.Diagnosis;

namespace Swardloop.Client.Wording;

/// <content>Garden mode, photos, and case files that come and go.</content>
public sealed partial class Texts
{
    // Garden mode
    public string Garden => Of("In the garden", "Draußen im Garten");
    public string Sun => Of("Sun", "Sonne");
    public string Awake => Of("Awake", "Wach");
    public string SavedHere => Of("Saved here", "Hier gesichert");
    public string Arrived => Of("At the workshop", "In der Werkstatt");
    public string CaseIsClosed => Of("This case is closed.", "Dieser Fall ist abgeschlossen.");
    public string NewsMeanwhile => Of("There is news, and something else is advised now. Finish this step, or take the new advice.", "Es gibt Neues, und jetzt wird etwas anderes empfohlen. Beenden Sie diesen Schritt oder nehmen Sie die neue Empfehlung.");
    public string TakeNewAdvice => Of("New advice", "Neue Empfehlung");
    public string BackWord => Of("Back", "Zurück");
    public string SkipWord => Of("Skip", "Überspringen");
    public string DoneWord => Of("Done", "Erledigt");
    public string FoundHere => Of("What was found, if you like", "Was gefunden wurde, wenn man mag");
    public string PicturesWord => Of("Pictures", "Bilder");
    public string AllFields => Of("All details", "Alle Angaben");
    public string CannotNow => Of("Can't be done now", "Geht jetzt nicht");
    public string ProveIt => Of("A last reading proves it, and is the measure for the next visit. Then close the case.", "Eine letzte Messung beweist es und ist das Maß für den nächsten Besuch. Dann den Fall abschließen.");
    public string TakeFinalReading => Of("Take the last reading", "Letzte Messung machen");
    public string WhyFinal => Of("Proves that the loop is whole, and is the measure for the next visit.", "Beweist, dass die Schleife intakt ist, und ist das Maß für den nächsten Besuch.");
    public string IAmAtTheYard => Of("I am at the yard", "Ich bin am Garten");
    public string IAmAtTheYardLong => Of("Then no drive is counted any more.", "Dann zählt keine Anfahrt mehr.");
    public string IAmHere => Of("I am here: touch the wire", "Hier bin ich: Draht berühren");
    public string WhichEnd => Of("Which end of the stretch", "Welches Ende des Stücks");
    public string StartWord => Of("Start", "Anfang");
    public string EndWord => Of("End", "Ende");
    public string ByPosition => Of("By position", "Nach Standort");
    public string Locating => Of("Looking for the position …", "Suche den Standort …");
    public string NoOrigin => Of("This yard's drawing has no place on the map, so no position can be used: touch the strip.", "Der Plan dieses Gartens hat keinen Ort auf der Karte, darum hilft kein Standort: das Band berühren.");
    public string UnitWord => Of("Unit", "Einheit");

    /// <summary>The gravest caution that holds, and how many more.</summary>
    public string ForThisVisit(string first, int more) => more == 0 ? first : Of($"{first}, {more} more", $"{first}, noch {more}");
    public string Holds => Of("Holds:", "Es gilt:");
    public string TickAgain => Of("Ask me again", "Erneut fragen");

    public string VisitFirst => Of("Before this visit", "Vor diesem Besuch");
    public string VisitFirstLong => Of("Read once; it holds for the whole visit and stays in sight.", "Einmal zu lesen; es gilt für den ganzen Besuch und bleibt in Sicht.");
    public string TickWhatIsMet => Of("Tick what is met. A step that needs the rest asks for it.", "Haken Sie ab, was erfüllt ist. Ein Schritt, der das Übrige braucht, fragt danach.");
    public string OnToTheStep => Of("Go on", "Weiter");
    public string ReadAndMet => Of("Read, and met:", "Gelesen und erfüllt:");

    /// <summary>A caution in a few words.</summary>
    public string InAWord(Caution caution) => caution switch
    {
        Caution.NoThunder => Of("no thunder", "kein Gewitter"),
        Caution.MainsStayClosed => Of("nothing on the mains opened", "nichts am Netz geöffnet"),
        Caution.DryHandsAtSwitchboard => Of("switchboard dry", "Verteiler trocken"),
        Caution.ProbesStayOutOfOutlets => Of("no probes in outlets", "Prüfspitzen nie ins Netz"),
        Caution.ProveWireBeforeCutting => Of("wire proven", "Draht nachgewiesen"),
        Caution.LocateServices => Of("services located", "Leitungen geortet"),
        Caution.NoLiveElectricFence => Of("fence off", "Elektrozaun aus"),
        Caution.AllDisconnectedForTestVoltage => Of("all off the station, lawn empty", "alles von der Station, Rasen leer"),
        Caution.StationUnplugged => Of("station unplugged", "Station ausgesteckt"),
        Caution.RunOnlyInsideLiveLoop => Of("loop works", "Schleife intakt"),
        Caution.ClearOfRunningMower => Of("lawn clear, stop in reach", "Rasen frei, Stopp in Reichweite"),
        Caution.MowerIsolated => Of("mower isolated", "Mäher gesichert"),
        Caution.CarryBladesAway => Of("blades away from you", "Messer von Ihnen weg"),
        Caution.MowerBatteryOut => Of("its battery out first", "Akku zuerst heraus"),
        Caution.ExtraLowVoltageOnly => Of("12 V at most", "höchstens 12 V"),
        Caution.BatteryCurrentLimited => Of("dry or fused battery", "Batterie trocken oder abgesichert"),
        Caution.MeterOnVolts => Of("meter on volts", "Messgerät auf Volt"),
        Caution.SafetyIsolatedSupply => Of("supply of the same kind", "Netzteil gleicher Art"),
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "Not a caution."),
    };

    public string SignWord => Of("Plus or minus", "Plus oder minus");
    public string EraseWord => Of("Erase", "Löschen");
    public string PointWord => Of("Decimal point", "Komma");

    // Photos
    public string Photo => Of("Photo", "Foto");
    public string PhotosWord => Of("Photos", "Fotos");
    public string NoPhotos => Of("No photo yet.", "Noch kein Foto.");
    public string PhotoSavedHere => Of("saved here", "hier gesichert");
    public string PhotoArrived => Of("at the workshop", "in der Werkstatt");
    public string PhotoElsewhere => Of("Not on this device, and no connection.", "Nicht auf diesem Gerät, und keine Verbindung.");
    public string PhotoOnItsWay => Of("Its picture has not reached the workshop yet.", "Das Bild ist noch nicht in der Werkstatt angekommen.");
    public string NoPicture => Of("This is no picture that this device can read.", "Das ist kein Bild, das dieses Gerät lesen kann.");
    public string PhotoNotSaved => Of("The photo is not saved: this device has no room. Free some, and take it again.", "Das Foto ist nicht gesichert: Auf diesem Gerät ist kein Platz. Platz schaffen und noch einmal aufnehmen.");
    public string KeepPosition => Of("Keep my position with the photo", "Meinen Standort mit dem Foto behalten");
    public string SavePhotoAsFile => Of("Save as a file", "Als Datei sichern");
    public string PutAwayPhoto => Of("Put away", "Ablegen");
    public string AtJointWord => Of("At which joint", "An welchem Verbinder");
    public string TheWholeYard => Of("the whole yard", "der ganze Garten");

    // Case files
    public string TakeInCaseFile => Of("Take in a case file", "Falldatei aufnehmen");
    public string TakeInCaseHint => Of("By mail or on a stick; drop it here or choose it. Twice is the same as once.", "Per Mail oder auf einem Stick; hierher ziehen oder auswählen. Zweimal ist wie einmal.");
    public string SaveCaseAsFile => Of("Save case as a file", "Fall als Datei sichern");
    public string ToTheCase => Of("To the case", "Zum Fall");

    public string PadRange(string least, string? most) => most is null ? Of($"Allowed: {least} or more.", $"Erlaubt: {least} oder mehr.") : Of($"Allowed: {least} to {most}.", $"Erlaubt: {least} bis {most}.");

    public string QuestionOf(int number, int count) => Of($"Question {number} of {count}", $"Frage {number} von {count}");

    public string FinalIs(string ohms, string verdict) => Of($"Last reading: {ohms}, {verdict}.", $"Letzte Messung: {ohms}, {verdict}.");

    public string Back(string length) => Of($"{length} back, towards A", $"{length} zurück, nach A");

    public string Forth(string length) => Of($"{length} on, towards B", $"{length} weiter, nach B");

    public string NoPosition(string why) => NoPosition(why, Of("touch the strip", "das Band berühren"));

    public string NoPositionOnPlan(string why) => NoPosition(why, Of("touch the place on the plan", "den Ort auf dem Plan antippen"));

    private string NoPosition(string why, string instead) => why switch
    {
        "denied" => Of($"This device may not tell its position. Allow it in the browser, or {instead}.", $"Dieses Gerät darf seinen Standort nicht sagen. Im Browser erlauben oder {instead}."),
        "late" => Of($"No position within 20 s. Under an open sky it goes faster; or {instead}.", $"Kein Standort in 20 s. Unter freiem Himmel geht es schneller; oder {instead}."),
        _ => Of($"This device has no position to tell. {Speech.Capital(instead)}.", $"Dieses Gerät kennt keinen Standort. {Speech.Capital(instead)}."),
    };

    public string TooCoarse(string accuracy) => Of($"The position is only known to {accuracy}: too coarse for a place on the wire. Touch the strip.", $"Der Standort ist nur auf {accuracy} bekannt: zu grob für einen Ort am Draht. Das Band berühren.");

    public string OffTheWire(string off, string accuracy) => Of($"This is {off} from the wire, known to {accuracy}. Stand at the wire, or touch the strip.", $"Das ist {off} vom Draht, auf {accuracy} bekannt. An den Draht stellen oder das Band berühren.");

    public string SpotFound(string accuracy) => Of($"Nearest place on the wire; the position is known to {accuracy}.", $"Nächster Ort am Draht; der Standort ist auf {accuracy} bekannt.");

    public string PhotoOf(string what, string when) => Of($"Photo of {what}, {when}", $"Foto: {what}, {when}");

    public string JointAt(string place) => Of($"joint at {place}", $"Verbinder bei {place}");

    public string PhotosWaiting(int count) => count == 1 ? Of("1 photo", "1 Foto") : Of($"{count} photos", $"{count} Fotos");

    public string PhotosWait(int count) => Of($"{PhotosWaiting(count)} saved on this device, not yet at the workshop.", $"{PhotosWaiting(count)} auf diesem Gerät gesichert, noch nicht in der Werkstatt.");

    public string PhotosUnderWay(int count) => Of($"{PhotosWaiting(count)} under way", $"{PhotosWaiting(count)} unterwegs");

    public string ApartPhotos(int count) => Of($"No connection, {PhotosWaiting(count)} saved here", $"Keine Verbindung, {PhotosWaiting(count)} hier gesichert");

    public string PhotoRefused(string why) => Of($"The workshop does not take this photo: {why}", $"Die Werkstatt nimmt dieses Foto nicht: {why}");

    public string CaseTakenIn(string yard, int added, int known) => Of(
        $"{yard}: {Observations(added)} taken in, {known} already here.", $"{yard}: {Observations(added)} aufgenommen, {known} schon da.");

    public string CaseNewHere(string yard, int added) => Of($"{yard}: a new case with {Observations(added)} taken in.", $"{yard}: neuer Fall mit {Observations(added)} aufgenommen.");

    public string CaseDiffers(string fields) => Of($" The file says otherwise of: {fields}. What is here stays.", $" Die Datei sagt anderes zu: {fields}. Es bleibt, was hier steht.");

    public string MoreWrong(string first, int more) => Of($"{first} … and {more} more", $"{first} … und {more} weitere");

    private string Observations(int count) => count == 1 ? Of("1 observation", "1 Befund") : Of($"{count} observations", $"{count} Befunde");
}
