using Swardloop.Client.Device;
using Swardloop.Core.Budget;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <summary>What the pages say. One row a text, one column a language: a text that lacks a language does not compile.</summary>
public sealed partial class Texts
{
    private readonly Tongue _tongue;

    private Texts(Tongue tongue) => _tongue = tongue;

    public static Texts English { get; } = new(Tongue.English);

    public static Texts German { get; } = new(Tongue.German);

    // Places and frame
    public string Bench => Of("Bench", "Werkbank");
    public string Yard => Of("Yard", "Garten");
    public string Yards => Of("Yards", "Gärten");
    public string Case => Of("Case", "Fall");
    public string Cases => Of("Cases", "Fälle");
    public string Trade => Of("Trade", "Betrieb");
    public string Workshop => Of("Workshop", "Werkstatt");
    public string Places => Of("Places", "Orte");
    public string ToBench => Of("To the bench", "Zur Werkbank");
    public string SkipToContent => Of("Skip to the content", "Zum Inhalt");
    public string Search => Of("Search", "Suchen");
    public string SearchLabel => Of("Owner, yard, address, telephone, complaint", "Besitzer, Garten, Anschrift, Telefon, Beschwerde");
    public string NothingFound => Of("Nothing found.", "Nichts gefunden.");
    public string MoreBySearch => Of("There are more. Type a word to find them.", "Es gibt noch mehr. Ein Wort eingeben, um sie zu finden.");
    public string Close => Of("Close", "Schließen");
    public string Add => Of("Add", "Hinzufügen");
    public string Change => Of("Change", "Ändern");
    public string Details => Of("Details", "Angaben");
    public string History => Of("History", "Verlauf");
    public string Stop => Of("Stop", "Anhalten");
    public string TryAgain => Of("Try again", "Noch einmal versuchen");
    public string Yes => Of("yes", "ja");
    public string No => Of("no", "nein");
    public string NotSaid => Of("not said", "keine Angabe");
    public string Choose => Of("choose …", "auswählen …");
    public string NoneYet => Of("None yet.", "Noch keine.");
    public string Note => Of("Note", "Notiz");
    public string When => Of("When", "Wann");
    public string Where => Of("Where", "Wo");
    public string Today => Of("today", "heute");
    public string Cleared => Of("(emptied)", "(geleert)");
    public string ARecord => Of("a record", "ein Eintrag");
    public string AFile => Of("a drawing", "ein Plan");
    public string NotHere => Of("This is not here. It may have been opened by an old address.", "Das ist nicht da. Vielleicht führt eine alte Adresse hierher.");
    public string NoSuchPlace => Of("There is nothing at this address", "Unter dieser Adresse ist nichts");
    public string PageFailed => Of("Something went wrong on this page", "Auf dieser Seite ist ein Fehler aufgetreten");
    public string PageFailedLong => Of("What you entered and saw saved is kept on this device. The other pages still work.", "Was eingegeben und als gesichert gemeldet war, liegt auf diesem Gerät. Die anderen Seiten funktionieren weiter.");
    public string DemoWorkshop => Of("Demo workshop: everything here is invented.", "Schauwerkstatt: alles hier ist erfunden.");
    public string KeysTitle => Of("Keys", "Tasten");
    public string KeysOff => Of("Keys can be switched off in Workshop.", "Abschalten unter Werkstatt.");
    public string SingleKeys => Of("Single keys do things (press ? for the list)", "Einzelne Tasten wirken (? zeigt die Liste)");

    public string DemoWord => Of("Demo", "Vorführung");
    public string Picture => Of("Signal picture", "Signalbild");
    public string WireStrip => Of("Wire strip", "Drahtband");
    public string DrawingBoard => Of("Drawing board", "Zeichenbrett");
    public string Draw => Of("Draw", "Zeichnen");
    public string DoneDrawing => Of("Done drawing", "Fertig gezeichnet");
    public string KeptAsDrawn => Of("Kept as it is drawn.", "Gesichert, wie gezeichnet.");
    public string NotKeptYet => Of("Not kept while something is wrong. Put it right, or take steps back.", "Nicht gesichert, solange etwas falsch ist. Berichtigen oder Schritte zurücknehmen.");
    public string NewBuild => Of("A new version is ready. What waits here goes along.", "Eine neue Fassung liegt bereit. Was hier wartet, geht mit.");
    public string TakeOver => Of("Change to it now", "Jetzt wechseln");

    // Gate
    public string SignIn => Of("Sign in", "Anmelden");
    public string SignOut => Of("Sign out", "Abmelden");
    public string FirstAccount => Of("First account", "Erstes Konto");
    public string FirstAccountLong => Of("This workshop has no account yet. The first one may do everything and adds the others.", "Diese Werkstatt hat noch kein Konto. Das erste darf alles und legt die anderen an.");
    public string OneTimeCode => Of("One-time code", "Einmalcode");
    public string OneTimeCodeHint => Of("It stands where the server was started.", "Er steht dort, wo der Server gestartet wurde.");
    public string YourName => Of("Your name", "Ihr Name");
    public string Email => Of("E-mail", "E-Mail");
    public string Password => Of("Password", "Passwort");
    public string PasswordHint => Of($"{PasswordRule.FewestCharacters} characters or more; a sentence is good.", $"Mindestens {PasswordRule.FewestCharacters} Zeichen; ein Satz ist gut.");
    public string PasswordNow => Of("Password or code now", "Jetziges Passwort oder Code");
    public string NextPassword => Of("New password", "Neues Passwort");
    public string PasswordChanged => Of("The password is changed.", "Das Passwort ist geändert.");
    public string ChangePassword => Of("Change the password", "Passwort ändern");
    public string ChangePasswordFirst => Of("This code was good once. Choose your own password before you go on.", "Dieser Code galt nur einmal. Erst ein eigenes Passwort wählen, dann geht es weiter.");
    public string MakeAccount => Of("Make the account", "Konto anlegen");
    public string Passkeys => Of("Passkeys", "Passkeys");
    public string PasskeysHint => Of("A passkey signs you in with this device's fingerprint, face or PIN instead of the password.", "Ein Passkey meldet Sie mit Fingerabdruck, Gesicht oder PIN des Geräts an, ohne Passwort.");
    public string NoPasskeys => Of("No passkey yet.", "Noch kein Passkey.");
    public string AddPasskey => Of("Add a passkey", "Passkey hinzufügen");
    public string RemovePasskey => Of("Remove", "Entfernen");
    public string PasskeyName => Of("Name of the passkey", "Name des Passkeys");
    public string PasskeyNumber(int number) => Of($"Passkey {number}", $"Passkey {number}");
    public string PasskeyAdded(string day) => Of($"added {day}", $"hinzugefügt am {day}");
    public string PasskeyDeclined => Of("No passkey was given.", "Es wurde kein Passkey gegeben.");
    public string SignInByPasskey => Of("Sign in with a passkey", "Mit Passkey anmelden");
    public string OpeningStore => Of("Opening what is on this device …", "Öffne, was auf diesem Gerät liegt …");
    public string LookingForWorkshop => Of("Looking for the workshop …", "Suche die Werkstatt …");
    public string NoWorkshopYet => Of("The workshop's server does not answer. Is the computer it runs on switched on, and is this device in the same network? The first sign-in on a device needs a connection; after that it works without.", "Der Server der Werkstatt antwortet nicht. Ist der Rechner an, auf dem er läuft, und ist dieses Gerät im selben Netz? Die erste Anmeldung auf einem Gerät braucht Verbindung; danach geht es ohne.");
    public string NoConnection => Of("No connection to the workshop.", "Keine Verbindung zur Werkstatt.");
    public string NoAnswer => Of("The workshop did not answer.", "Die Werkstatt hat nicht geantwortet.");

    // What is saved where
    public string SavedTitle => Of("What is saved where", "Was wo gesichert ist");
    public string AllArrived => Of("All at the workshop", "Alles in der Werkstatt");
    public string AllArrivedLong => Of("Everything entered here has reached the workshop.", "Alles hier Eingegebene ist in der Werkstatt angekommen.");
    public string Fetching => Of("Fetching …", "Hole …");
    public string Apart => Of("No connection", "Keine Verbindung");
    public string ApartLong => Of("No connection. Nothing waits. What you enter now is saved on this device and goes out later.", "Keine Verbindung. Nichts wartet. Was jetzt eingegeben wird, ist auf diesem Gerät gesichert und geht später hinaus.");
    public string CannotSave => Of("This device cannot save", "Gerät kann nicht sichern");
    public string RefusedTitle => Of("Refused by the workshop", "Von der Werkstatt abgelehnt");
    public string WaitingTitle => Of("Waits on this device", "Wartet auf diesem Gerät");
    public string LookNow => Of("Look for a connection now", "Jetzt Verbindung suchen");
    public string SaveUnsent => Of("Save all unsent to a file", "Alles Ungesendete in eine Datei");
    public string TakeInUnsent => Of("Take in such a file", "Solche Datei aufnehmen");
    public string TakeInHint => Of("Changes and photos, from this device or another. What has arrived already is not taken twice; the rest goes out under your name.", "Änderungen und Fotos, von diesem Gerät oder einem anderen. Was schon angekommen ist, wird nicht doppelt aufgenommen; der Rest geht unter Ihrem Namen hinaus.");
    public string NotUnsentFile => Of("This is no file of what was unsent; allowed: a file that Save all unsent made.", "Das ist keine Datei mit Ungesendetem; erlaubt: eine Datei, die „Alles Ungesendete in eine Datei“ gemacht hat.");
    public string UnsavedTitle => Of("Not saved on this device", "Auf diesem Gerät nicht gesichert");
    public string TakenAlong => Of("Photos taken along", "Mitgenommene Fotos");
    public string TakenAlongHint => Of("Records, drawings, advice and pictures of all yards are on this device. Photos are fetched for the yards of today's visits and for those pinned here.", "Einträge, Pläne, Empfehlungen und Bilder aller Gärten liegen auf diesem Gerät. Fotos werden geholt für die Gärten der heutigen Besuche und für die hier angehefteten.");
    public string VisitDue => Of("visit due", "Besuch fällig");
    public string Pinned => Of("pinned", "angeheftet");
    public string Unpin => Of("Unpin", "Lösen");
    public string PinYard => Of("Pin another yard", "Weiteren Garten anheften");
    public string NothingTakenAlong => Of("No visit today, and no yard pinned.", "Heute kein Besuch und kein Garten angeheftet.");
    public string DropOtherPhotos => Of("Remove photos of other yards", "Fotos anderer Gärten entfernen");
    public string DeviceWord => Of("This device", "Dieses Gerät");
    public string ThrowAway => Of("Throw away", "Wegwerfen");
    public string WaitsHere => Of("waits here", "wartet hier");
    public string TwoValues => Of("Two values", "Zwei Werte");
    public string TwoValuesLong => Of("Two people set this without knowing of each other. Touch the one that holds; the other stays in the history.", "Zwei haben das gesetzt, ohne voneinander zu wissen. Den gültigen antippen; der andere bleibt im Verlauf.");
    public string TwoDrawings => Of("Two people changed this drawing without knowing of each other. Touch the one that holds; the other stays in the history.", "Zwei haben diesen Plan geändert, ohne voneinander zu wissen. Den gültigen antippen; der andere bleibt im Verlauf.");

    // Bench
    public string NewCase => Of("New case", "Neuer Fall");
    public string NewYard => Of("New yard", "Neuer Garten");
    public string NewOwner => Of("New owner", "Neuer Besitzer");
    public string OpenCases => Of("Open cases", "Offene Fälle");
    public string NoOpenCases => Of("No open case. A new one begins with New case.", "Kein offener Fall. Ein neuer beginnt mit Neuer Fall.");
    public string Visits => Of("Visits, today and tomorrow", "Besuche, heute und morgen");
    public string NoVisits => Of("No visit planned.", "Kein Besuch geplant.");
    public string QuietYards => Of("Signal running short", "Signal wird knapp");
    public string NoQuietYards => Of("No yard is short of signal.", "In keinem Garten wird das Signal knapp.");
    public string SilentNow => Of("without reception now", "jetzt ohne Empfang");
    public string UnknownYard => Of("unknown yard", "unbekannter Garten");
    public string NoComplaint => Of("no complaint noted", "keine Beschwerde notiert");

    // Owner's link
    public string AskOwner => Of("Ask the owner", "Besitzer fragen");
    public string AskOwnerLong => Of("Makes a link for the owner: a light page that asks, one thing at a time, what the engine wants to know and an owner may do. It is good for this case only.", "Macht einen Link für den Besitzer: eine leichte Seite, die eins nach dem anderen fragt, was die Rechnung wissen will und ein Besitzer tun darf. Er gilt nur für diesen Fall.");
    public string OwnersLanguage => Of("The owner's language", "Sprache des Besitzers");
    public string ValidDays => Of("Valid for, days", "Gültig, Tage");
    public string AskFirst => Of("Ask these first (else the engine chooses)", "Das zuerst fragen (sonst wählt die Rechnung)");
    public string MakeLink => Of("Make the link", "Link machen");
    public string LinkShownOnce => Of("The address is shown only now: of its secret nothing but a checksum is kept.", "Die Adresse steht nur jetzt da: von ihrem Geheimnis wird nur eine Prüfsumme behalten.");
    public string LinkQr => Of("QR code of the owner's link", "QR-Code des Links für den Besitzer");
    public string LinkMessage => Of("Message to paste", "Nachricht zum Einfügen");
    public string CopyMessage => Of("Copy the message", "Nachricht kopieren");
    public string SaveQr => Of("Save the QR code", "QR-Code sichern");
    public string SeeAsOwner => Of("See it as the owner does", "Ansehen wie der Besitzer");
    public string Copied => Of("Copied.", "Kopiert.");
    public string CopyByHand => Of("This browser does not let the page copy: mark the text and copy it.", "Dieser Browser lässt die Seite nicht kopieren: Text markieren und kopieren.");
    public string LinksSoFar => Of("Links of this case", "Links dieses Falls");
    public string Withdraw => Of("Withdraw", "Zurückziehen");

    public string DaysAllowed(int most) => Of($"Valid for: 1 to {most} days.", $"Gültig: 1 bis {most} Tage.");

    public string LinkOpenUntil(string made, string until) => Of($"Open until {until} ({made})", $"Offen bis {until} ({made})");

    public string LinkExpired(string made, string until) => Of($"Expired {until} ({made})", $"Abgelaufen {until} ({made})");

    public string LinkWithdrawn(string made) => Of($"Withdrawn ({made})", $"Zurückgezogen ({made})");

    // Case
    public string Known => Of("Known", "Bekannt");
    public string Likely => Of("Likely", "Wahrscheinlich");
    public string Next => Of("Next", "Nächster Schritt");
    public string NothingKnown => Of("Nothing was tried yet.", "Noch nichts versucht.");
    public string AddObservation => Of("Add an observation", "Befund eintragen");
    public string Correct => Of("Correct", "Berichtigen");
    public string Correction => Of("correction", "Berichtigung");
    public string CorrectedLater => Of("Corrected by a later one.", "Später berichtigt.");
    public string StrikeOut => Of("Strike out", "Streichen");
    public string StrikeLong => Of("It no longer counts, and stays readable.", "Es zählt nicht mehr und bleibt lesbar.");
    public string WhyStruck => Of("Why", "Warum");
    public string NoReason => Of("no reason given", "ohne Angabe");
    public string SaysLittle => Of("Says little.", "Sagt wenig.");
    public string ComplaintWords => Of("the complaint, and what its words tell", "die Beschwerde, und was ihre Worte sagen");
    public string Thinking => Of("Working it out …", "Rechne …");
    public string Stopped => Of("Stopped.", "Angehalten.");
    public string NoAdvice => Of("No advice yet.", "Noch keine Empfehlung.");
    public string Finished => Of("The mower runs. Nothing is left to do.", "Der Mäher läuft. Nichts ist mehr zu tun.");
    public string NobodyCan => Of("Nobody here can take a step that would help. See Details: who can do what.", "Niemand hier kann einen Schritt tun, der hilft. Siehe Angaben: wer was kann.");
    public string FirstHeed => Of("Before you start:", "Bevor Sie anfangen:");
    public string TickFirst => Of("The instructions appear when everything above is ticked.", "Die Anleitung erscheint, wenn oben alles abgehakt ist.");
    public string RecordResult => Of("Enter the result", "Ergebnis eintragen");
    public string WhatIf => Of("What if …", "Was wäre wenn …");
    public string WhatIfLong => Of("Try an answer. Nothing is recorded.", "Eine Antwort probieren. Nichts wird festgehalten.");
    public string WhatIfShown => Of("Only tried:", "Nur probiert:");
    public string ShowWhatIf => Of("Show what would follow", "Zeigen, was folgte");
    public string RecordIt => Of("It is so: record it", "Es ist so: festhalten");
    public string ForgetIt => Of("Forget it", "Vergessen");
    public string Us => Of("we", "wir");
    public string TheOwner => Of("owner", "Besitzer");
    public string WhoDidIt => Of("Who did it", "Wer hat es gemacht");

    public string WhoDoesIt => Of("Who does it", "Wer es macht");
    public string WhatWasDone => Of("What was done", "Was gemacht wurde");
    public string Tests => Of("Tests", "Prüfungen");
    public string Repairs => Of("Repairs", "Reparaturen");
    public string PlainMeter => Of("plain multimeter", "einfaches Multimeter");
    public string OverRange => Of("over-range (OL, 1)", "über dem Messbereich (OL, 1)");
    public string AnswerMissing => Of("An answer is missing.", "Hier fehlt die Antwort.");
    public string NotANumber => Of("This is not a number.", "Das ist keine Zahl.");
    public string WhichYard => Of("Which yard", "Welcher Garten");
    public string YardMissing => Of("Choose a yard. If there is none yet, make it first: New yard.", "Einen Garten wählen. Gibt es ihn noch nicht, erst anlegen: Neuer Garten.");
    public string WhatIsWrong => Of("What is wrong, in the owner's words", "Was ist los, mit den Worten des Besitzers");
    public string MachineShows => Of("The machine shows", "Die Maschine zeigt");
    public string OwnerHelps => Of("The owner will help", "Der Besitzer hilft mit");
    public string OwnerHasMeter => Of("The owner has a multimeter", "Der Besitzer hat ein Multimeter");
    public string WeCanCome => Of("We can come", "Wir können kommen");
    public string OurInstruments => Of("Our instruments for this case", "Unsere Messgeräte für diesen Fall");
    public string OpenCase => Of("Open the case", "Fall eröffnen");
    public string CloseCase => Of("Close the case", "Fall abschließen");
    public string ReopenCase => Of("Open it again", "Wieder eröffnen");
    public string CloseLong => Of("What was found goes into the next advice of this workshop.", "Was gefunden wurde, fließt in die nächsten Empfehlungen dieser Werkstatt ein.");
    public string FoundAt => Of("Found at, along the wire from A", "Gefunden bei, am Draht ab A");
    public string SaveCaseFile => Of("Case file", "Falldatei");
    public string PlanVisit => Of("Plan a visit", "Besuch planen");
    public string DayMissing => Of("Choose a day.", "Einen Tag wählen.");
    public string ShowFewer => Of("Fewer", "Weniger");

    // Yard
    public string YardName => Of("What the yard is called", "Wie der Garten heißt");
    public string NoYards => Of("No yard yet.", "Noch kein Garten.");
    public string NoCases => Of("No case yet.", "Noch kein Fall.");
    public string Wire => Of("Wire", "Draht");
    public string FirstDrawing => Of("First drawing", "Erster Plan");
    public string FirstDrawingHint => Of("Two tape measurements make a rectangle, to be drawn true later.", "Zwei Bandmaße ergeben ein Rechteck, das später genau gezeichnet wird.");
    public string WestToEast => Of("West to east", "West nach Ost");
    public string SouthToNorth => Of("South to north", "Süd nach Nord");
    public string OrImport => Of("Or from a file", "Oder aus einer Datei");
    public string ImportHint => Of("Yard file, GeoJSON, GPX track or a table of corners.", "Gartendatei, GeoJSON, GPX-Spur oder Tabelle der Ecken.");
    public string FileTooLarge => Of("the file is too large", "die Datei ist zu groß");
    public string DrawingMissing => Of("Type both lengths, choose a file, say what is known of the wire's length, or draw it.", "Beide Längen eingeben, eine Datei wählen, sagen, was von der Drahtlänge bekannt ist, oder zeichnen.");
    public string OrLength => Of("Or nobody knows where the wire lies; known is", "Oder niemand weiß, wo der Draht liegt; bekannt ist");
    public string OrLengthHint => Of("Advice then tells places along the wire, and is wide.", "Der Rat nennt Orte dann nur am Draht entlang und ist ungenau.");
    public string ClueOf(LengthClue clue) => clue switch
    {
        LengthClue.Area => Of("the lawn's area, m²", "die Fläche des Rasens, m²"),
        LengthClue.Capacitance => Of("the whole wire's capacitance, nF", "die Kapazität des ganzen Drahts, nF"),
        _ => Of("the wire's length, m", "die Länge des Drahts, m"),
    };

    public string ClueValue => Of("Value", "Wert");
    public string CourseUnknown => Of("Nobody knows where this wire lies: a square of its length stands in for it. Places are told along the wire from terminal A; reception and lawn are a guess.", "Niemand weiß, wo dieser Draht liegt: Ein Quadrat seiner Länge steht für ihn. Orte werden am Draht entlang ab Klemme A genannt; Empfang und Rasen sind geraten.");
    public string CourseHeard(string within) => Of($"Where this wire lies was heard: within {within} of the line, 19 times in 20.", $"Wo dieser Draht liegt, wurde gehört: in 19 von 20 Fällen höchstens {within} neben der Linie.");
    public string? CourseOf(Yard? yard, Speech say) => yard?.Loop.Course switch
    {
        WireCourse.Unknown => CourseUnknown,
        WireCourse.Heard when yard.Loop.CourseToleranceMetres == 0 => Of("Where this wire lies was heard; how far beside the line it may lie is not said.", "Wo dieser Draht liegt, wurde gehört; wie weit er neben der Linie liegen mag, steht nicht da."),
        WireCourse.Heard => CourseHeard(say.Length(yard.Loop.CourseToleranceMetres)),
        _ => null,
    };
    public string DrawIt => Of("Draw it", "Selbst zeichnen");
    public string DropYard => Of("Leave without a yard", "Ohne Garten gehen");
    public string NoYardYet => Of("The yard is kept as soon as its wire is drawn.", "Der Garten wird gesichert, sobald sein Draht gezeichnet ist.");
    public string NameMissing => Of("A name is missing.", "Es fehlt der Name.");
    public string LoopBudget => Of("Expected resistance and reserve", "Sollwiderstand und Reserve");
    public string WireLength => Of("Wire", "Draht");
    public string Lawn => Of("Lawn", "Rasen");
    public string JointsWord => Of("Joints", "Verbinder");
    public string RuleOfThumb => Of("Rule of thumb", "Faustregel");
    public string SpareWeakest => Of("Reserve at the weakest place", "Reserve am schwächsten Ort");
    public string SilentHealthy => Of("no reception even with a healthy loop", "kein Empfang, auch bei intakter Schleife");
    public string SilentFrom => Of("weakest place without reception", "schwächster Ort ohne Empfang");
    public string Readings => Of("Loop readings", "Schleifenmessungen");
    public string NoReadings => Of("No reading yet.", "Noch keine Messung.");
    public string AddReading => Of("Add a reading", "Messung eintragen");
    public string ChartCaption => Of("Band: what a healthy loop reads. Bars: what the meter leaves open.", "Band: was eine intakte Schleife misst. Striche: was das Messgerät offen lässt.");
    public string LoopOhms => Of("Loop, leads taken off", "Schleife, ohne Messleitungen");
    public string Judgement => Of("Says", "Sagt");
    public string Broken => Of("open circuit", "unterbrochen");
    public string FromA => Of("From A", "Ab A");
    public string Style => Of("Kind", "Art");
    public string Files => Of("Files", "Dateien");
    public string ReplaceDrawing => Of("New drawing from a file", "Neuer Plan aus einer Datei");
    public string SaveYardFile => Of("Yard file", "Gartendatei");
    public string Contact => Of("Contact", "Kontakt");

    // Trade
    public string Instruments => Of("Instruments", "Messgeräte");
    public string InstrumentsHint => Of("A meter's limits of error go into every reading made with it.", "Die Fehlergrenzen eines Messgeräts gehen in jede Messung mit ihm ein.");
    public string Stock => Of("Wire in stock", "Draht auf Lager");
    public string Profiles => Of("Stations and mowers", "Stationen und Mäher");
    public string ProfilesHint => Of("Reach constant and source resistance come from a bench trial with known resistors.", "Reichweitenkonstante und Quellenwiderstand kommen aus einem Prüfstandsversuch mit bekannten Widerständen.");
    public string Codes => Of("Codes", "Codes");
    public string CodesHint => Of("What a machine shows, and the plain observation it stands for. Your own list.", "Was eine Maschine anzeigt und für welchen schlichten Befund es steht. Die eigene Liste.");
    public string CodeReadingHint => Of("A new case in which the machine shows this begins with this observation.", "Ein neuer Fall, in dem die Maschine dies zeigt, beginnt mit diesem Befund.");
    public string KeepReading => Of("Keep this observation", "Diesen Befund behalten");
    public string PaceHint => Of("What a step takes here, where it differs from the trade's figure beside it; empty is that figure. Advice reckons with it at once, in open cases too.",
        "Was ein Schritt hier braucht, wo es von der Zahl des Gewerbes daneben abweicht; leer gilt diese. Der Rat rechnet sofort damit, auch in offenen Fällen.");
    public string PaceTests => Of("Tests: minutes and parts", "Prüfungen: Minuten und Teile");
    public string PaceRepairs => Of("Repairs: minutes and parts", "Reparaturen: Minuten und Teile");
    public string PaceChanged(int own, int never) => Of($"{own} changed, {never} not done", $"{own} geändert, {never} nicht gemacht");
    public string WeDoThis => Of("We do this", "Das machen wir");
    public string PaceNumber(string name) => name switch
    {
        "minutes" => Of("Minutes", "Minuten"),
        "minutesPerM" => Of("Minutes per metre", "Minuten je Meter"),
        "jointMinutes" => Of("Minutes at a joint", "Minuten an einem Verbinder"),
        "parts" => Of("Parts", "Teile"),
        "partsPerM" => Of("Parts per metre", "Teile je Meter"),
        "jointParts" => Of("Parts at a joint", "Teile an einem Verbinder"),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "No such number."),
    };
    public string PaceDefault(string value) => Of($"usually {value}", $"üblich {value}");
    public string HowToConnect => Of("How to connect", "So wird angeschlossen");
    public string PictureShows => Of("The picture shows the loop", "Das Bild zeigt die Schleife");
    public string StateOf(Swardloop.Core.Diagnosis.Drawn.LoopState state) => state switch
    {
        Swardloop.Core.Diagnosis.Drawn.LoopState.Sound => Of("sound", "intakt"),
        Swardloop.Core.Diagnosis.Drawn.LoopState.Now => Of("as it likely is now", "wie sie jetzt wohl ist"),
        Swardloop.Core.Diagnosis.Drawn.LoopState.Practice => Of("as practice tells it", "wie die Praxis es kennt"),
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "No such state."),
    };
    public string LikelyPercent(string percent) => Of($"likeliest, {percent} %", $"am wahrscheinlichsten, {percent} %");
    public string MetalShare(string percent) => Of($"{percent} % of the station's current flows through the metal.", $"{percent} % des Stroms der Station fließen durch das Metall.");
    public string PracticeParts => Of(
        "Here computation and practice part: practice knows the mower to cross the wire between two damaged places beside metal, in about 8 of 10 such yards, and drawn so the metal takes all the current. The computed network, as it likely is now, gives the metal only the share said there.",
        "Hier gehen Rechnung und Praxis auseinander: Die Praxis kennt, dass der Mäher zwischen zwei beschädigten Stellen neben Metall über den Draht fährt, in etwa 8 von 10 solchen Gärten; so gezeichnet nimmt das Metall den ganzen Strom. Das Netz aus Draht, Boden und Metall gibt dem Metall nur den Anteil, der dort genannt ist.");
    public string RatesHint => Of("They decide which step is the cheapest way on.", "Sie entscheiden, welcher Schritt der billigste Weg weiter ist.");
    public string HidePutAway => Of("Hide what is put away", "Abgelegtes verbergen");

    // Workshop
    public string OnThisDevice => Of("On this device", "Auf diesem Gerät");
    public string LanguageWord => Of("Language", "Sprache");
    public string Lengths => Of("Lengths", "Längen");
    public string MetresWord => Of("Metres", "Meter");
    public string FeetWord => Of("Feet", "Fuß");
    public string AppearanceWord => Of("Appearance", "Aussehen");
    public string AsTheDevice => Of("As the device", "Wie das Gerät");
    public string Light => Of("Light", "Hell");
    public string Dark => Of("Dark", "Dunkel");
    public string TheWorkshop => Of("The workshop", "Die Werkstatt");
    public string TheWorkshopHint => Of("Owners see this on the page of their link.", "Besitzer sehen dies auf der Seite ihres Links.");
    public string People => Of("People", "Leute");
    public string NameWord => Of("Name", "Name");
    public string RoleWord => Of("Role", "Rolle");
    public string StateWord => Of("Account", "Konto");
    public string Lock => Of("Lock the account", "Konto sperren");
    public string Unlock => Of("Unlock the account", "Konto entsperren");
    public string SafeKeeping => Of("Safe keeping", "Sicherung");
    public string BackupHint => Of("A backup is the whole database and restores as a whole. The export is everything as open files.", "Die Sicherung ist die ganze Datenbank und wird als Ganzes zurückgeholt. Der Export ist alles als offene Dateien.");
    public string Backup => Of("Backup", "Sicherung");
    public string ExportAll => Of("Export everything", "Alles exportieren");
    public string ForgetOwner => Of("Forget an owner", "Besitzer vergessen");
    public string ForgetHint => Of("Erases name, address, telephone, e-mail, every note, complaint and photo of the person's yards, here and in the history, and closes the links. Readings and wire stay. It cannot be undone.", "Löscht Name, Anschrift, Telefon, E-Mail, jede Notiz, Beschwerde und jedes Foto der Gärten dieser Person, hier und im Verlauf, und schließt die Links. Messungen und Draht bleiben. Das lässt sich nicht zurücknehmen.");
    public string TypeName => Of("Type the owner's name to confirm", "Zur Bestätigung den Namen eintippen");
    public string Forgotten => Of("Forgotten.", "Vergessen.");
    public string BuildWord => Of("Build", "Stand");

    public string FoundCount(int count) => count == 1 ? Of("1 found", "1 gefunden") : Of($"{count} found", $"{count} gefunden");

    public string Waiting(int count) => count == 1 ? Of("1 change", "1 Änderung") : Of($"{count} changes", $"{count} Änderungen");

    public string NotSaved(int count) => Of($"{Waiting(count)} not saved", $"{Waiting(count)} nicht gesichert");

    public string NotSavedLong(int count, bool isFull) => isFull
        ? Of(
            $"The room on this device is used up. {Waiting(count)} on this page and nowhere else: do not close it. Save to a file, or make room; this page tries again by itself.",
            $"Der Platz auf diesem Gerät ist aufgebraucht. {Waiting(count)} nur auf dieser Seite und nirgends sonst: nicht schließen. In eine Datei sichern oder Platz schaffen; die Seite versucht es von selbst wieder.")
        : Of(
            $"This device does not save. {Waiting(count)} on this page and nowhere else: do not close it. Save to a file; this page tries again by itself.",
            $"Dieses Gerät sichert nicht. {Waiting(count)} nur auf dieser Seite und nirgends sonst: nicht schließen. In eine Datei sichern; die Seite versucht es von selbst wieder.");

    public string NearlyFull(string left) => Of(
        $"Only {left} MB of room are left on this device. Soon it can save no more: remove photos or programs you do not need, or send what waits.",
        $"Auf diesem Gerät sind nur noch {left} MB Platz. Bald kann es nichts mehr sichern: unnötige Fotos oder Programme entfernen oder Wartendes senden.");

    public string PhotosHere(int here, int all, string megabytes) => all == 0
        ? Of("no photos", "keine Fotos")
        : Of($"{here} of {all} photos here, {megabytes} MB", $"{here} von {all} Fotos hier, {megabytes} MB");

    public string OtherPhotosHere(int count, string megabytes) => count == 1
        ? Of($"1 photo of other yards is here, {megabytes} MB.", $"1 Foto anderer Gärten liegt hier, {megabytes} MB.")
        : Of($"{count} photos of other yards are here, {megabytes} MB.", $"{count} Fotos anderer Gärten liegen hier, {megabytes} MB.");

    public string TakenIn(UnsentTakenIn came) =>
        Of($"Read: {Waiting(came.ChangesHeld)}, {came.Changes} of them new here", $"Gelesen: {Waiting(came.ChangesHeld)}, davon {came.Changes} hier neu")
        + (came.PhotosHeld == 0 ? "" : Of($"; {PhotosWaiting(came.PhotosHeld)}, {came.Photos} of them new here", $"; {PhotosWaiting(came.PhotosHeld)}, davon {came.Photos} hier neu")) + "."
        + (came.PhotosUnknown == 0 ? "" : Of(
            $" {PhotosWaiting(came.PhotosUnknown)} belong to what this device does not know yet: take the file in again once everything has been fetched.",
            $" {PhotosWaiting(came.PhotosUnknown)} gehören zu etwas, das dieses Gerät noch nicht kennt: Datei noch einmal aufnehmen, wenn alles geholt ist."));

    public string PhotosNotInFile(int count) => Of(
        $"{PhotosWaiting(count)} could not be read on this device and are not in the file.",
        $"{PhotosWaiting(count)} waren auf diesem Gerät nicht lesbar und fehlen in der Datei.");

    public string NotAllTakenIn(string why) => Of(
        $"Not all of it could be saved here: {why}. Keep the file; what is taken in already is not doubled when it comes again.",
        $"Nicht alles war hier zu sichern: {why}. Datei behalten; schon Aufgenommenes wird beim nächsten Mal nicht doppelt.");

    public string OthersWait(int count, string names) => Of(
        $"{Waiting(count)} by {names}: saved on this device, sent when they sign in here.",
        $"{Waiting(count)} von {names}: auf diesem Gerät gesichert, gesendet bei Anmeldung hier.");

    public string OthersWaitShort(int count) => Of($"{Waiting(count)} of others wait here", $"{Waiting(count)} anderer warten hier");

    public string LastReached(string when) => Of($"The workshop was last reached on {when}.", $"Die Werkstatt war zuletzt erreicht: {when}.");

    public string ClockWrong(TimeSpan ahead) => ahead > TimeSpan.Zero
        ? Of($"The clock of this device is {Span(ahead)} fast. Please set it. Until then the workshop's time is used.", $"Die Uhr dieses Geräts geht {Span(ahead)} vor. Bitte stellen. Bis dahin gilt die Zeit der Werkstatt.")
        : Of($"The clock of this device is {Span(ahead)} slow. Please set it. Until then the workshop's time is used.", $"Die Uhr dieses Geräts geht {Span(ahead)} nach. Bitte stellen. Bis dahin gilt die Zeit der Werkstatt.");

    public string ArrivedAt(string when) => Of($"arrived {when} (the device's clock was wrong)", $"angekommen {when} (die Uhr des Geräts ging falsch)");

    public string ApartWaiting(int count) => Of($"No connection, {Waiting(count)} saved here", $"Keine Verbindung, {Waiting(count)} hier gesichert");

    public string ApartWaitingLong(int count) => Of(
        $"No connection. {Waiting(count)}: saved on this device, not yet at the workshop. What waits goes out by itself.",
        $"Keine Verbindung. {Waiting(count)}: auf diesem Gerät gesichert, noch nicht in der Werkstatt. Wartendes geht von selbst hinaus.");

    public string UnderWay(int count) => Of($"{Waiting(count)} under way", $"{Waiting(count)} unterwegs");

    public string UnderWayLong(int count) => Of($"{Waiting(count)}: saved on this device and being sent.", $"{Waiting(count)}: auf diesem Gerät gesichert, wird gesendet.");

    public string RefusedCount(int count) => Of($"{count} refused: look", $"{count} abgelehnt: ansehen");

    public string StoreFault(string why) => Of(
        $"The browser will not save here: {why}. Do not rely on this device until that is mended.",
        $"Der Browser sichert hier nicht: {why}. Auf dieses Gerät ist kein Verlass, bis das behoben ist.");

    public string WaitsForYou(int count) => Of(
        $"{Waiting(count)} on this device are not yet at the workshop. They go out when whoever made them signs in here.",
        $"{Waiting(count)} auf diesem Gerät sind noch nicht in der Werkstatt. Sie gehen hinaus, wenn sich hier anmeldet, wer sie gemacht hat.");

    public string Allowed(string what) => Of($"Allowed: {what}", $"Erlaubt: {what}");

    public string ByAt(string who, string when) => Of($"by {who}, {when}", $"von {who}, {when}");

    public string NewAnswers(int count) => count == 1 ? Of("1 new answer", "1 neue Antwort") : Of($"{count} new answers", $"{count} neue Antworten");

    public string PromisedFor(string day) => Of($"promised for {day}", $"zugesagt für {day}");

    public string OpenedOn(string day) => Of($"opened {day}", $"eröffnet {day}");

    public string AsOf(string when) => Of($"As of {when}.", $"Stand {when}.");

    public string Spare(string ohms) => Of($"{ohms} in reserve", $"{ohms} Reserve");

    public string ReadOf(string read, string expected) => Of($"read {read}, expected {expected}", $"gemessen {read}, Soll {expected}");

    public string YardNamed(string name) => Of($"Yard: {name}", $"Garten: {name}");

    public string Verdict(string howSure, string cause) => Of($"{howSure}: {cause}.", $"{howSure}: {cause}.");

    public string ShowMore(int count) => Of($"{count} more", $"{count} weitere");

    public string Unmodelled(string share) => Of(
        $"The readings fit nothing this program knows ({share} for that). Repeat what surprised you, and ask someone with more experience.",
        $"Die Messungen passen zu nichts, was dieses Programm kennt ({share} dafür). Wiederholen Sie, was Sie überrascht hat, und fragen Sie jemanden mit mehr Erfahrung.");

    public string OddOneOut(string seen) => Of($"These readings disagree. The one that does not fit: {seen}.", $"Diese Befunde widersprechen sich. Nicht zu den anderen passt: {seen}.");

    public string RepeatFirst(string step) => Of($"Before you trust any of it, repeat: {step}.", $"Bevor Sie etwas davon glauben, wiederholen Sie: {step}.");

    public string CostNow(string money) => Of($"{money} now", $"jetzt {money}");

    public string CostToFinish(string money) => Of($"about {money} until it runs", $"etwa {money}, bis er läuft");

    public string OrElse(int count) => count == 1 ? Of("Or else, 1 other step", "Oder sonst, 1 anderer Schritt") : Of($"Or else, {count} other steps", $"Oder sonst, {count} andere Schritte");

    public string WhereInterval(string at, string credibility, string low, string high) => Of(
        $"{at} from A along the wire; {credibility}: between {low} and {high}.", $"{at} ab A am Draht entlang; {credibility}: zwischen {low} und {high}.");

    public string Excess(string median, string low, string high) => Of(
        $"Above a healthy loop by {median} ({low} to {high}).", $"Über einer intakten Schleife um {median} ({low} bis {high}).");

    public string StruckBecause(string why) => Of($"Struck out: {why}", $"Gestrichen: {why}");

    public string ClosedWith(string when, string found) => Of($"Closed {when}. Found: {found}", $"Abgeschlossen {when}. Gefunden: {found}");

    public string WireNotKnown => Of("Not known", "Nicht bekannt");
    public string PlainCopper(string area) => Of($"Copper, {area} mm²", $"Kupfer, {area} mm²");

    public string Imported(string name, string length) => Of($"Read: {name}, {length} of wire.", $"Gelesen: {name}, {length} Draht.");

    public string HealthyLoop(string nominal, string low, string high) => Of($"A healthy loop reads {nominal} ({low} to {high}).", $"Eine intakte Schleife misst {nominal} ({low} bis {high}).");

    public string AllReadings(int count) => Of($"All {count} in a table", $"Alle {count} als Tabelle");

    public string ChartWords(int count, string last, string low, string high) => Of(
        $"Loop readings over time: {count}, the last {last}; a healthy loop reads {low} to {high}.",
        $"Schleifenmessungen über die Zeit: {count}, zuletzt {last}; eine intakte Schleife misst {low} bis {high}.");

    public string DrawingFacts(string length, int joints, string area) => Of($"{length} of wire, {joints} joints, {area} m² of lawn", $"{length} Draht, {joints} Verbinder, {area} m² Rasen");

    public string ShowPutAway(int count) => Of($"Show {count} put away", $"{count} Abgelegte zeigen");

    public string RoleOf(string name) => Of($"Role of {name}", $"Rolle von {name}");

    public string Room(string used, string most, bool isLasting) =>
        Of($"{used} used here of {most}. ", $"{used} von {most} hier belegt. ")
        + (isLasting
            ? Of("The browser keeps it until you remove it.", "Der Browser behält es, bis man es entfernt.")
            : Of("The browser may clear it when the device runs full: send what waits before long trips.", "Der Browser darf es räumen, wenn das Gerät voll wird: Wartendes vor langen Fahrten senden."));

    public string RoleName(Role role) => role switch
    {
        Role.Reader => Of("Reads only", "Liest nur"),
        Role.Desk => Of("Desk", "Büro"),
        Role.Technician => Of("Technician", "Technik"),
        Role.Principal => Of("Runs the workshop", "Leitet die Werkstatt"),
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "Not a role."),
    };

    public string RoleHint(Role role) => role switch
    {
        Role.Reader => Of("Sees everything, changes nothing.", "Sieht alles, ändert nichts."),
        Role.Desk => Of("Owners, yards, cases, observations, visits.", "Besitzer, Gärten, Fälle, Befunde, Besuche."),
        Role.Technician => Of("Like the desk, and instruments, stock, profiles and codes.", "Wie das Büro, dazu Messgeräte, Lager, Profile und Codes."),
        Role.Principal => Of("Everything; people, rates, backup and erasing too.", "Alles; auch Leute, Sätze, Sicherung und Löschen."),
        _ => throw new ArgumentOutOfRangeException(nameof(role), role, "Not a role."),
    };

    public string VerdictOf(LoopVerdict verdict) => verdict switch
    {
        LoopVerdict.Healthy => Of("healthy", "in Ordnung"),
        LoopVerdict.Watch => Of("a little high: keep watching", "etwas hoch: beobachten"),
        LoopVerdict.Investigate => Of("too high: there is a fault", "zu hoch: es liegt ein Fehler vor"),
        LoopVerdict.Faulty => Of("far too high: mowers commonly fail", "viel zu hoch: Mäher fallen meist aus"),
        LoopVerdict.BelowExpected => Of("too low: wire touches, or is not as drawn", "zu niedrig: Draht berührt sich oder liegt anders"),
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "Not a verdict."),
    };

    public string JointStyle(JointStyle style) => style switch
    {
        Core.Yards.JointStyle.Gel => Of("gel", "Gel"),
        Core.Yards.JointStyle.Crimped => Of("crimped", "gecrimpt"),
        Core.Yards.JointStyle.Soldered => Of("soldered", "gelötet"),
        Core.Yards.JointStyle.Twisted => Of("twisted", "verdrillt"),
        Core.Yards.JointStyle.Clamp => Of("clamp", "Klemme"),
        Core.Yards.JointStyle.Unknown => Of("unknown", "unbekannt"),
        _ => throw new ArgumentOutOfRangeException(nameof(style), style, "Not a style."),
    };

    private string Span(TimeSpan time)
    {
        time = time.Duration();
        return time.TotalHours < 2 ? Of($"{time.TotalMinutes:0} minutes", $"{time.TotalMinutes:0} Minuten")
            : time.TotalHours < 48 ? Of($"{time.TotalHours:0} hours", $"{time.TotalHours:0} Stunden")
            : Of($"{time.TotalDays:0} days", $"{time.TotalDays:0} Tage");
    }

    /// <summary>What a problem says, or what it allows.</summary>
    public string Problem(string text) => _tongue == Tongue.German ? ProblemTexts.German(text) : text;

    /// <summary>A problem with what is allowed.</summary>
    public string Problem(string message, string allowed) => allowed.Length > 0 ? $"{Problem(message)} ({Problem(allowed)})" : Problem(message);

    /// <summary>A problem of a file: where, what is wrong, what is allowed.</summary>
    public string Problem(Problem problem)
    {
        // Control characters of a file are shown as escapes only by the problem's own line.
        Problem said = problem with { Message = Problem(problem.Message), Allowed = Problem(problem.Allowed) };
        string line = said.ToString(), allowed = $"; allowed: {said.Allowed}";
        return _tongue == Tongue.German && line.EndsWith(allowed, StringComparison.Ordinal) ? $"{line[..^allowed.Length]}; erlaubt: {said.Allowed}" : line;
    }

    /// <summary>All problems, a line each.</summary>
    public IReadOnlyList<string> Problems<T>(Checked<T> read)
        where T : class =>
        read.FurtherProblems == 0
            ? [.. read.Problems.Select(Problem)]
            : [.. read.Problems.Select(Problem), Of($"… and {read.FurtherProblems} more", $"… und {read.FurtherProblems} weitere")];

    private string Of(string english, string german) => _tongue == Tongue.German ? german : english;
}
