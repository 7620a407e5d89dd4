using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Swardloop.Client.Wording;

/// <summary>What is wrong in what a person typed or handed in, and what is allowed, in German. The core says it in English, as the command line
/// shows it; here each of its sentences stands once, with its gaps.</summary>
public static class ProblemTexts
{
    private const string Gap = "{}";

    private static readonly (string English, string German)[] Sentences =
    [
        // Numbers, words, lists
        ("missing", "fehlt"),
        ("missing: a clad wire's resistance depends on it", "fehlt: der Widerstand eines kupferplattierten Drahts hängt davon ab"),
        ("missing value", "ein Wert fehlt"),
        ("is no step", "ist kein Schritt"),
        ("this step has no such number", "eine solche Zahl hat dieser Schritt nicht"),
        ("a value", "ein Wert"),
        ("a value: the record makes no sense without it", "ein Wert: ohne ihn ist der Eintrag sinnlos"),
        ("{}, or over-range", "{0}, oder über dem Messbereich"),
        ("a number from {} to {}", "eine Zahl von {0} bis {1}"),
        ("a number above {} and up to {}", "eine Zahl über {0} und bis {1}"),
        ("a whole number from {} to {}", "eine ganze Zahl von {0} bis {1}"),
        ("text of 1 to {} characters", "Text von 1 bis {0} Zeichen"),
        ("text of at most {} characters, without control characters", "Text von höchstens {0} Zeichen, ohne Steuerzeichen"),
        ("true or false", "ja oder nein"),
        ("an object { … }", "ein Objekt { … }"),
        ("an object", "ein Objekt"),
        ("an array of {} to {} items", "eine Liste von {0} bis {1} Einträgen"),
        ("an array of {} to {} corners [x, y] in metres", "eine Liste von {0} bis {1} Ecken [x, y] in Metern"),
        ("got {} corners", "{0} Ecken"),
        ("has {} corners with its holes", "hat mit seinen Löchern {0} Ecken"),
        ("at most {} corners; a read track that is imported keeps only those it needs to stay within 2 cm", "höchstens {0} Ecken; eine gelesene Spur, die eingelesen wird, behält nur so viele, wie sie braucht, um auf 2 cm zu stimmen"),
        ("the track is simplified: {} of its {} corners stay, all others lie within {} cm of it; its length is {} m, as read {} m", "die Spur ist vereinfacht: {0} ihrer {1} Ecken bleiben, alle anderen liegen höchstens {2} cm daneben; sie ist {3} m lang, gelesen {4} m"),
        ("an array of {}", "eine Liste von {0}"),
        ("{} to {} fields", "{0} bis {1} Felder"),
        ("{} to {} m", "{0} bis {1} m"),
        ("{} to {}", "{0} bis {1}"),
        ("at most {}, for a field that is set", "höchstens {0}, für ein Feld, das gesetzt wird"),
        ("at least {}", "mindestens {0}"),
        ("{} or more", "{0} oder mehr"),
        ("{} changes for it", "{0} Änderungen dazu"),
        ("a UUID of version 7", "eine UUID der Version 7"),
        ("a new UUID of version 7", "eine neue UUID der Version 7"),
        ("there is one such record", "davon gibt es genau einen Datensatz"),
        ("this id is reserved for the workshop's {}", "diese Kennung ist der Werkstatt vorbehalten: {0}"),
        ("a day such as {}", "ein Tag wie {0}"),
        ("a moment such as {}", "ein Zeitpunkt wie {0}"),
        ("a time with its offset (RFC 3339), such as {}", "ein Zeitpunkt mit Zeitzone (RFC 3339), wie {0}"),
        ("the id of a record", "die Kennung eines Eintrags"),
        ("no such field", "ein solches Feld gibt es nicht"),
        ("a text that can be seen", "ein Text, von dem etwas zu sehen ist"),
        ("the address of a web server, such as {}", "die Adresse eines Webservers, etwa {0}"),
        ("has {} observations", "hat {0} Befunde"),

        // Practice yards
        ("not done by this workshop", "das macht diese Werkstatt nicht"),
        ("not for owners", "nichts für Besitzer"),
        ("the owner will not help", "der Besitzer hilft nicht mit"),
        ("the owner lacks the instrument", "dem Besitzer fehlt das Messgerät"),
        ("no technician can come", "niemand von uns kann kommen"),
        ("the technician lacks the instrument", "uns fehlt das Messgerät"),
        ("no such guide wire", "einen solchen Leitdraht gibt es nicht"),
        ("beyond the wire", "jenseits des Drahts"),
        ("a step that this yard's people, instruments and wires allow", "ein Schritt, den Leute, Messgeräte und Drähte dieses Gartens erlauben"),
        ("is one step too many", "ist ein Schritt zu viel"),
        ("{} steps; the practice can be ended", "{0} Schritte; das Üben lässt sich beenden"),
        ("You have no such practice.", "Einen solchen Übungsgarten haben Sie nicht."),
        ("This practice is over.", "Dieser Übungsgarten ist beendet."),
        ("This practice is not over.", "Dieser Übungsgarten ist nicht beendet."),
        ("Another page went on with this practice.", "Eine andere Seite hat in diesem Übungsgarten weitergemacht."),
        ("{} practice yards are not ended; end one first.", "{0} Übungsgärten sind nicht beendet; beenden Sie erst einen."),
        ("a new case", "ein neuer Fall"),
        ("is set by the server alone", "setzt nur der Server"),
        ("the other fields", "die anderen Felder"),
        ("the person was forgotten after this was written", "die Person wurde vergessen, nachdem das geschrieben war"),
        ("readings without a text; for a new customer a new record", "Messungen ohne Text; für neue Kunden ein neuer Eintrag"),
        ("must not be cleared", "darf nicht leer werden"),
        ("was set before and stays as it is", "wurde schon gesetzt und bleibt, wie es ist"),
        ("a new record", "ein neuer Eintrag"),
        ("the record is of another kind, {}", "der Eintrag ist von anderer Art, {0}"),
        ("the record's own kind", "die Art des Eintrags selbst"),
        ("unknown cause", "unbekannte Ursache"),
        ("a cause's name, or two joined by +", "der Name einer Ursache, oder zwei mit + verbunden"),
        ("the digest of a case, as text", "die Prüfsumme eines Falls, als Text"),
        ("is taken", "ist vergeben"),
        ("another address", "eine andere Adresse"),
        ("Passwords must be at least {} characters", "Ein Passwort hat mindestens {0} Zeichen"),
        ("Incorrect password", "Das Passwort stimmt nicht"),
        ("Email '{}' is invalid", "„{0}“ ist keine E-Mail-Adresse"),

        // Observations and cases
        ("stands beside repair", "steht neben einer Reparatur"),
        ("either test or repair", "entweder Prüfung oder Reparatur"),
        ("stands beside {}", "steht neben {0}"),
        ("either {} or value: over-range", "entweder {0} oder value: über dem Messbereich"),
        ("got {}, not above fromM {}", "{0} ist nicht mehr als der Anfang, {1}"),
        ("more than fromM", "mehr als der Anfang"),
        ("not a case file this program knows: got {}", "keine Falldatei, die dieses Programm kennt: {0}"),
        ("no such file: {}", "eine solche Datei gibt es nicht: {0}"),
        ("a path relative to this file, of a file that can be read", "ein Pfad ab dieser Datei, zu einer lesbaren Datei"),
        ("the path of a yard file, or a yard object", "der Pfad einer Gartendatei, oder ein Garten als Objekt"),
        ("a step that an owner may take", "ein Schritt, den ein Besitzer tun darf"),

        // Trials on the bench
        ("got addedOhms and loopOhms", "addedOhms und loopOhms zugleich"),
        ("no resistance given", "kein Widerstand angegeben"),
        ("exactly one of {}", "genau eines von {0}"),
        ("given beside another thing seen", "steht neben einer anderen Beobachtung"),
        ("only with seen {}", "nur mit seen {0}"),
        ("a place on its lawn has no field at all", "ein Ort auf seinem Rasen hat gar kein Feld"),
        ("a loop whose field reaches all of its lawn", "eine Schleife, deren Feld den ganzen Rasen erreicht"),

        // Files
        ("the file is not UTF-8 text", "die Datei ist kein UTF-8-Text"),
        ("byte {} is not UTF-8 text here", "Byte {0} ist hier kein UTF-8-Text"),
        ("the file is empty", "die Datei ist leer"),
        ("the file has {} bytes", "die Datei hat {0} Bytes"),
        ("the file has too many properties", "die Datei hat zu viele Eigenschaften"),
        ("a file of at most {} MiB", "eine Datei von höchstens {0} MiB"),
        ("a heading with x,y or lat,lon", "eine Kopfzeile mit x,y oder lat,lon"),
        ("the property '{}' stands twice in one object", "die Eigenschaft „{0}“ steht zweimal in einem Objekt"),
        ("each property once", "jede Eigenschaft einmal"),
        ("a \\u escape stands for half a character", "eine \\u-Folge steht für ein halbes Zeichen"),
        ("whole surrogate pairs", "ganze Ersatzpaare"),
        ("a document type declaration is not read", "eine Dokumenttyp-Angabe wird nicht gelesen"),
        ("{} points in one line", "{0} Punkte in einer Linie"),
        ("a further track of type {}", "eine weitere Spur der Art {0}"),
        ("one loop; other tracks of type lawn, metal or neighbour", "eine Schleife; andere Spuren der Art lawn, metal oder neighbour"),
        ("the track has {} good points", "die Spur hat {0} brauchbare Punkte"),
        ("<gpx> of {}", "<gpx> von {0}"),
        ("no loop is drawn", "keine Schleife ist gezeichnet"),
        ("a second loop is drawn", "eine zweite Schleife ist gezeichnet"),
        ("exactly one line for the loop; others with a role", "genau eine Linie für die Schleife; andere mit einer Rolle"),
        ("a ring of the lawn has fewer than 3 corners", "ein Ring des Rasens hat weniger als 3 Ecken"),
        ("the loop encloses no area, and no lawn is drawn", "die Schleife umschließt keine Fläche, und kein Rasen ist gezeichnet"),
        ("a loop round the lawn, or a lawn", "eine Schleife um den Rasen, oder ein Rasen"),
        ("the guide wire ends {} m off the wire", "der Leitdraht endet {0} m neben dem Draht"),
        ("a line from the station that ends at most {} m off the wire, or where it joins as joinsAtM", "eine Linie ab der Station, die höchstens {0} m neben dem Draht endet, oder wo er auf den Draht trifft als joinsAtM"),
        ("the joint is in the guide wire \"{}\"", "der Verbinder sitzt im Leitdraht „{0}“"),
        ("no wire; no guide wire is drawn", "kein Draht; kein Leitdraht ist gezeichnet"),
        ("the joint lies {} m off the wire", "der Verbinder liegt {0} m neben dem Draht"),
        ("at most {} m, or its place as atM", "höchstens {0} m, oder sein Ort als atM"),
        ("LineString (loop, metal, neighbour), Polygon (lawn, or any of these), MultiPolygon (lawn), Point (joint)",
            "LineString (loop, metal, neighbour), Polygon (lawn oder eines davon), MultiPolygon (lawn), Point (joint)"),
        ("[x, y], each {}", "[x, y], je {0}"),
        ("[longitude, latitude], {} and {}", "[Länge, Breite], {0} und {1}"),
        ("another version of the yard file", "eine andere Fassung der Gartendatei"),
        ("not a yard file", "keine Gartendatei"),
        ("got {} for the role {}", "da steht {0} für die Rolle {1}"),
        ("a yard file", "eine Gartendatei"),

        // The wire's material
        ("no size given", "keine Größe angegeben"),
        ("given for a wire that is not clad", "für einen Draht angegeben, der nicht kupferplattiert ist"),
        ("only with copper-clad-steel and copper-clad-aluminium", "nur mit copper-clad-steel und copper-clad-aluminium"),
        ("1 or 2 for aluminium", "1 oder 2 bei Aluminium"),
        ("1, 2 or 5", "1, 2 oder 5"),
        ("given without what the standard goes by", "ohne das angegeben, wonach die Norm geht"),
        ("with areaMm2 and material copper or aluminium", "mit areaMm2 und Werkstoff Kupfer oder Aluminium"),
        ("given for a wire that is not copper", "für einen Draht angegeben, der nicht aus Kupfer ist"),
        ("true only with material copper", "nur bei Kupfer"),

        // The yard's shapes
        ("{} at {}: the pieces after corner {} and after corner {}", "{0} bei {1}: die Stücke nach Ecke {2} und nach Ecke {3}"),
        ("the wire crosses itself", "der Draht kreuzt sich"),
        ("the ring crosses itself", "der Ring kreuzt sich"),
        ("the hole crosses the lawn's edge", "das Loch kreuzt den Rasenrand"),
        ("crosses {}", "kreuzt {0}"),
        ("lies over itself or others so often that it cannot be checked", "liegt so oft über sich oder anderem, dass es nicht geprüft werden kann"),
        ("a wire that may touch itself and run out and back along one line, but not cross", "ein Draht darf sich berühren und auf einer Linie hin und zurück laufen, aber sich nicht kreuzen"),
        ("a ring that does not cross itself", "ein Ring, der sich nicht kreuzt"),
        ("rings beside each other", "Ringe nebeneinander"),
        ("one of this and {} lies in the other", "dieser und {0}: einer liegt im anderen"),
        ("holes inside the lawn", "Löcher im Rasen"),
        ("the hole at {} lies outside the lawn", "das Loch bei {0} liegt außerhalb des Rasens"),
        ("holes without a lawn", "Löcher ohne Rasen"),
        ("'lawn' beside 'holes'", "„lawn“ neben „holes“"),
        ("encloses {} m²", "umschließt {0} m²"),
        ("the wire is {} m long", "der Draht ist {0} m lang"),
        ("the lawn is {} m across", "der Rasen misst {0} m"),
        ("the wire is off the lawn from {} m to {} m along it, from {} after corner {}", "der Draht liegt von {0} m bis {1} m neben dem Rasen, ab {2} nach Ecke {3}"),
        ("at most {} m beside the lawn, or out and back along one line", "höchstens {0} m neben dem Rasen, oder hin und zurück auf einer Linie"),
        ("encloses no area, and there is no 'lawn'", "umschließt keine Fläche, und es gibt keinen Rasen"),
        ("a wire round the lawn, or a lawn", "ein Draht um den Rasen, oder ein Rasen"),
        ("the wire encloses no area, and no lawn is drawn", "der Draht umschließt keine Fläche, und kein Rasen ist gezeichnet"),
        ("no wire is drawn yet", "noch ist kein Draht gezeichnet"),
        ("a wire from A to B", "ein Draht von A nach B"),
        ("got {} different corners", "{0} verschiedene Ecken"),
        ("{} m is the place of {} already", "bei {0} m liegt schon {1}"),
        ("each joint once", "jeder Verbinder einmal"),
        ("{} does not lie beyond fromM, {}", "{0} liegt nicht hinter dem Anfang, {1}"),
        ("{} m lies beyond the end of the wire", "{0} m liegt hinter dem Ende des Drahts"),
        ("{} and {} lie within {} m of each other: readings can hardly tell them apart", "{0} und {1} liegen keine {2} m auseinander: Messungen können sie kaum unterscheiden"),
        ("the guide wire is {} m long", "der Leitdraht ist {0} m lang"),
        ("\"{}\" is the name of another guide wire", "„{0}“ heißt schon ein anderer Leitdraht"),
        ("each name once", "jeder Name einmal"),
        ("{} joins at {} m, beyond the end of the wire", "{0} trifft bei {1} m auf den Draht, hinter dessen Ende"),
        ("{} ends {} m from the place on the wire where it is said to join it, {} m from A", "{0} endet {1} m neben der Stelle, wo er auf den Draht treffen soll, {2} m von A"),
        ("the name of one of 'guides'; nothing for the loop", "der Name eines Leitdrahts; nichts für die Schleife"),
        ("no wire but the loop: this yard has no guide wires", "kein Draht außer der Schleife: dieser Garten hat keine Leitdrähte"),
        ("nobody knows where the wire lies: a square of its length stands in for it, places are told along the wire only, and reception and the lawn are a guess",
            "niemand weiß, wo der Draht liegt: ein Quadrat seiner Länge steht für ihn, Orte werden nur am Draht entlang genannt, Empfang und Rasen sind geraten"),
        ("where the wire lies was heard; how far beside the line it may lie is not said", "wo der Draht liegt, wurde gehört; wie weit er neben der Linie liegen mag, steht nicht da"),
        ("where the wire lies was heard: within {} m of the line, 19 times in 20", "wo der Draht liegt, wurde gehört: in 19 von 20 Fällen höchstens {0} m neben der Linie"),
        ("the conductor is not known: taken as any copper wire of 0.5 mm² to 2.5 mm², and what depends on it is as wide as that",
            "der Leiter ist nicht bekannt: gerechnet wird mit jedem Kupferdraht von 0,5 mm² bis 2,5 mm², und was davon abhängt, ist so ungenau"),
        ("{} is taped from one point only", "{0} ist nur von einem Punkt aus gemessen"),
        ("{} is fixed", "{0} liegt fest"),
        ("the side of a point that is not fixed and is taped from two points", "die Seite eines Punkts, der nicht festliegt und von zwei Punkten aus gemessen ist"),
        ("lies where {} lies", "liegt, wo {0} liegt"),
        ("fixed points 0.05 m or more apart", "feste Punkte mit mindestens 0,05 m Abstand"),
        ("{} is where the tape begins", "bei {0} beginnt das Band"),
        ("another point", "ein anderer Punkt"),
        ("an object of at least two points, each \"name\": [x, y] in metres", "ein Objekt mit mindestens zwei Punkten, je \"Name\": [x, y] in Metern"),
        ("{}, apart by spaces", "{0}, durch Leerzeichen getrennt"),
        (", apart by spaces", ", durch Leerzeichen getrennt"),
        ("at,ohms,leadOhms,temperatureC,conditions (at and ohms are required)", "at,ohms,leadOhms,temperatureC,conditions (at und ohms müssen da sein)"),
        ("terminal A", "Klemme A"),
        ("terminal B", "Klemme B"),
        ("the joint at {} m", "der Verbinder bei {0} m"),
        ("the island at {} is wound the same way as the lawn: its field does not turn over, and the mower takes it for lawn",
            "die Insel bei {0} ist ebenso herum gewickelt wie der Rasen: ihr Feld dreht sich nicht um, und der Mäher hält sie für Rasen"),

        ("got {} characters", "{0} Zeichen"),
        ("got {} items", "{0} Einträge"),
        ("got {} fields", "{0} Felder"),
        ("got {} and {}", "{0} und {1} zugleich"),
        ("got {}", "da steht {0}"),
        ("at most {}", "höchstens {0}"),
        ("{}: {}", "{0}: {1}"),
    ];

    private static readonly Lazy<(Regex Pattern, string German)[]> Patterns = new(() =>
        // The most special first: a gap takes anything.
        [.. Sentences.OrderByDescending(sentence => sentence.English.Length).Select(sentence => (PatternOf(sentence.English), sentence.German))]);

    /// <summary>What a problem says, or what it allows, in German; the text itself where it is none of the core's sentences, as words that a
    /// person chose and the reasons of readers of JSON and XML are none.</summary>
    /// <param name="english">As the core says it.</param>
    public static string German(string english)
    {
        foreach ((Regex pattern, string german) in Patterns.Value)
        {
            if (pattern.Match(english) is { Success: true } match)
            {
                StringBuilder text = new(german);
                for (int gap = 1; gap < match.Groups.Count; gap++)
                {
                    _ = text.Replace($"{{{(gap - 1).ToString(CultureInfo.InvariantCulture)}}}", InGap(match.Groups[gap].Value));
                }

                return text.ToString();
            }
        }

        return english;
    }

    // A gap holds a number, a quotation, or another sentence.
    private static string InGap(string text) =>
        text.StartsWith('"') ? text
        : DecimalPattern.Replace(text, "$1,$2") is var number && number != text ? number
        : German(text);

    private static readonly Regex DecimalPattern = new(@"^(-?\d[\d\u00a0]*)\.(\d+)(?= ?[^\d. ]*$)", RegexOptions.CultureInvariant);

    private static Regex PatternOf(string sentence) =>
        new("^" + Regex.Escape(sentence).Replace(Regex.Escape(Gap), "(.+?)", StringComparison.Ordinal).Replace(@"\{}", "(.+?)", StringComparison.Ordinal) + "$",
            RegexOptions.CultureInvariant | RegexOptions.Singleline);
}
