using System.Collections.Frozen;
using System.Globalization;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Workshop.Owners;

/// <summary>Everything that an owner's page says, in one language. Another language is another column. Immutable.</summary>
public sealed class OwnerTexts
{
    private readonly FrozenDictionary<OwnerText, string> _texts;

    private OwnerTexts(string language, Func<(OwnerText Text, string English, string German), string> column, Phrasebook words, StepTexts steps, AnswerTexts answers)
    {
        (Language, Words, Steps, Answers) = (language, words, steps, answers);
        _texts = Table.ToFrozenDictionary(row => row.Text, column);
    }

    /// <summary>English.</summary>
    public static OwnerTexts English { get; } = new("en", row => row.English, Phrasebook.English, StepTexts.English, AnswerTexts.English);

    /// <summary>German.</summary>
    public static OwnerTexts German { get; } = new("de", row => row.German, Phrasebook.German, StepTexts.German, AnswerTexts.German);

    /// <summary>IETF tag.</summary>
    public string Language { get; }

    /// <summary>Places and observations in this language.</summary>
    public Phrasebook Words { get; }

    /// <summary>Steps in this language.</summary>
    public StepTexts Steps { get; }

    /// <summary>Names of answers in this language.</summary>
    public AnswerTexts Answers { get; }

    private static (OwnerText Text, string English, string German)[] Table =>
    [
        (OwnerText.Title, "Help us find the fault", "Helfen Sie uns, den Fehler zu finden"),
        (OwnerText.Intro, "One question at a time. You need no tools unless we say so. Whatever you cannot do, leave to us.", "Eine Frage nach der anderen. Werkzeug brauchen Sie nur, wenn wir es sagen. Was Sie nicht können, überlassen Sie uns."),
        (OwnerText.CautionsFirst, "First, for your safety", "Zuerst, zu Ihrer Sicherheit"),
        (OwnerText.CautionsRead, "I have read this. Go on", "Ich habe das gelesen. Weiter"),
        (OwnerText.HowTo, "This is how", "So geht es"),
        (OwnerText.Where, "Where", "Wo"),
        (OwnerText.Answer, "Your answer", "Ihre Antwort"),
        (OwnerText.Send, "Send the answer", "Antwort senden"),
        (OwnerText.Done, "I have done this", "Das habe ich getan"),
        (OwnerText.CannotDo, "I can't do this", "Das kann ich nicht"),
        (OwnerText.CannotThanks, "That is no problem. We take that over.", "Das macht nichts. Wir übernehmen das."),
        (OwnerText.Arrived, "Your answer has arrived at the workshop at {0}.", "Ihre Antwort ist um {0} in der Werkstatt angekommen."),
        (OwnerText.PhotoArrived, "Your photo has arrived at the workshop at {0}.", "Ihr Foto ist um {0} in der Werkstatt angekommen."),
        (OwnerText.BothArrived, "Your answer and your photo have arrived at the workshop at {0}.", "Ihre Antwort und Ihr Foto sind um {0} in der Werkstatt angekommen."),
        (OwnerText.AnsweredTwice, "Your answer has arrived at {0}. The same question was answered from another device meanwhile; the workshop has both.", "Ihre Antwort ist um {0} angekommen. Dieselbe Frage wurde inzwischen auf einem anderen Gerät beantwortet; die Werkstatt hat beides."),
        (OwnerText.APhoto, "A photo", "Ein Foto"),
        (OwnerText.WhyYou, "With your answers we come with the right parts, or need not come at all.", "Mit Ihren Antworten kommen wir mit den richtigen Teilen oder müssen gar nicht kommen."),
        (OwnerText.HowMany, "At most {0} questions. This one takes about {1} minutes.", "Höchstens {0} Fragen. Diese dauert etwa {1} Minuten."),
        (OwnerText.CallsBy, "You hear from us by {0}.", "Sie hören bis {0} von uns."),
        (OwnerText.WhyNot, "Why not?", "Warum nicht?"),
        (OwnerText.NoTool, "I do not have the tool", "Das Werkzeug habe ich nicht"),
        (OwnerText.DoesNotStart, "The mower does not start", "Der Mäher startet nicht"),
        (OwnerText.DoesNotDare, "I do not dare to", "Das traue ich mich nicht"),
        (OwnerText.OtherReason, "Something else", "Etwas anderes"),
        (OwnerText.AnythingElse, "Anything else, for example where (may stay empty)", "Sonst noch etwas, zum Beispiel wo (darf leer bleiben)"),
        (OwnerText.PhotoToo, "A photo to go with it (may stay empty)", "Ein Foto dazu (darf leer bleiben)"),
        (OwnerText.Doubtful, "That is unusually much. Please look once more at the number and at what stands beside it.", "Das ist ungewöhnlich viel. Bitte sehen Sie noch einmal auf die Zahl und auf das, was daneben steht."),
        (OwnerText.IsRight, "Yes, that is right", "Ja, das stimmt"),
        (OwnerText.NothingMore, "Thank you. There is nothing more for you to do now.", "Danke. Für Sie gibt es jetzt nichts mehr zu tun."),
        (OwnerText.WhatNow, "What happens now", "Was jetzt geschieht"),
        (OwnerText.WeCome, "Somebody from the workshop looks at your answers and calls you, or comes with the right parts.", "Jemand aus der Werkstatt sieht sich Ihre Antworten an und ruft Sie an oder kommt mit den richtigen Teilen."),
        (OwnerText.Runs, "The mower runs. Thank you for your help.", "Der Mäher läuft. Danke für Ihre Hilfe."),
        (OwnerText.SoFar, "What you told us", "Was Sie uns gesagt haben"),
        (OwnerText.Waits, "arrived", "angekommen"),
        (OwnerText.Seen, "looked at by the workshop", "von der Werkstatt angesehen"),
        (OwnerText.Phone, "Questions? Call us", "Fragen? Rufen Sie an"),
        (OwnerText.Photo, "Send a photo", "Ein Foto schicken"),
        (OwnerText.PhotoHow, "A photo of the place, the station or the display helps. We remove the place data from it.", "Ein Foto von der Stelle, der Station oder der Anzeige hilft. Die Ortsangaben darin entfernen wir."),
        (OwnerText.PhotoSend, "Send the photo", "Foto senden"),
        (OwnerText.OverRange, "Also on its largest Ω range the meter shows only OL, or only a 1", "Auch im größten Ω-Bereich zeigt das Messgerät nur OL oder nur eine 1"),
        (OwnerText.ProbesTogether, "First number: the two probes held together. Leave it empty if you did not do that", "Erste Zahl: die beiden Spitzen zusammengehalten. Leer lassen, wenn Sie das nicht getan haben"),
        (OwnerText.OnWireEnds, "Second number: one probe on each wire end", "Zweite Zahl: je eine Spitze an einem Drahtende"),
        (OwnerText.GuideToA, "Second number: one tip on the guide wire, the other on loop end A", "Zweite Zahl: eine Spitze am Leitdraht, die andere an Drahtende A"),
        (OwnerText.GuideToB, "Third number: one tip on the guide wire, the other on loop end B", "Dritte Zahl: eine Spitze am Leitdraht, die andere an Drahtende B"),
        (OwnerText.Yes, "Yes", "Ja"),
        (OwnerText.No, "No", "Nein"),
        (OwnerText.NeedsMeter, "You need a multimeter for this: the ten-euro kind will do.", "Dazu brauchen Sie ein Multimeter: eines für zehn Euro genügt."),
        (OwnerText.FillIn, "Please fill in this field.", "Bitte füllen Sie dieses Feld aus."),
        (OwnerText.NotNumber, "We cannot read this as a number. Please type it like 5.6", "Das können wir nicht als Zahl lesen. Bitte schreiben Sie es so: 5,6"),
        (OwnerText.Negative, "A minus means that there is still voltage on the wire. Is the plug out, and are both wire ends off? Then measure again. If the minus stays, choose “I can't do this”.", "Ein Minus heißt: Auf dem Draht ist noch Spannung. Ist der Stecker gezogen, sind beide Drahtenden ab? Dann messen Sie noch einmal. Bleibt das Minus, wählen Sie „Das kann ich nicht“."),
        (OwnerText.LoneOne, "Only a 1, without a point? Many meters show that when it is too much for them. Turn to the next larger Ω range. Still only a 1 on the largest: tick the box. If it really is one ohm, type 1.0", "Nur eine 1, ohne Komma? So zeigen viele Messgeräte, dass es ihnen zu viel ist. Drehen Sie auf den nächstgrößeren Ω-Bereich. Auch im größten nur eine 1: Kästchen ankreuzen. Ist es wirklich ein Ohm, schreiben Sie 1,0"),
        (OwnerText.NumberAndOverRange, "There is a number and the tick. Please leave only one of them.", "Hier stehen eine Zahl und das Kreuz. Bitte lassen Sie nur eines stehen."),
        (OwnerText.LessThanLeads, "The second number cannot be smaller than the first. Are they swapped?", "Die zweite Zahl kann nicht kleiner sein als die erste. Sind sie vertauscht?"),
        (OwnerText.MeterUnit, "What stands beside the number on the meter", "Was auf dem Messgerät neben der Zahl steht"),
        (OwnerText.OutOfRange, "That cannot be. Allowed: {0} to {1} {2}", "Das kann nicht sein. Erlaubt: {0} bis {1} {2}"),
        (OwnerText.Choose, "Please choose one of these.", "Bitte wählen Sie eine davon."),
        (OwnerText.Gone, "This link does not work", "Dieser Link geht nicht"),
        (OwnerText.GoneHow, "It has run out, was withdrawn, or was not copied to its end. What you told us earlier has arrived. Please ask the workshop for a new link.", "Er ist abgelaufen, wurde zurückgezogen oder nicht bis zum Ende kopiert. Was Sie uns früher gesagt haben, ist angekommen. Bitte fragen Sie die Werkstatt nach einem neuen."),
        (OwnerText.TooMany, "Too many attempts", "Zu viele Versuche"),
        (OwnerText.TooManyHow, "Please wait a minute, then load this page again.", "Bitte warten Sie eine Minute und laden Sie diese Seite dann neu."),
        (OwnerText.PhotoRefused, "This is not a photo we can take. Allowed: a JPEG, PNG or WebP picture up to {0} MB.", "Dieses Foto können wir nicht nehmen. Erlaubt: ein JPEG-, PNG- oder WebP-Bild bis {0} MB."),
        (OwnerText.Message, "Hello, this is {0}. To find the fault with your mower's wire we have a few questions. Please open this link; it is for you alone and works until {2}: {1}", "Guten Tag, hier ist {0}. Um den Fehler am Draht Ihres Mähers zu finden, haben wir ein paar Fragen. Bitte öffnen Sie diesen Link; er ist nur für Sie und gilt bis {2}: {1}"),
        (OwnerText.OtherLanguage, "Deutsch", "English"),
        (OwnerText.PictureEnds, "The two thin wires, taken off the station. The thick cable to the plug is not meant.", "Die beiden dünnen Drähte, von der Station abgenommen. Das dicke Kabel zum Stecker ist nicht gemeint."),
        (OwnerText.PictureTips, "First number: on Ω, smallest range, the two metal tips held together", "Erste Zahl: auf Ω, kleinster Bereich, die beiden Metallspitzen aneinander"),
        (OwnerText.PictureMeter, "Second number: one tip on each wire end", "Zweite Zahl: je eine Spitze an einem Drahtende"),
        (OwnerText.PictureTooMuch, "Too much for this range: only OL, or only a 1 at the left", "Zu viel für diesen Bereich: nur OL, oder nur eine 1 ganz links"),
        (OwnerText.PictureLawn, "Plan of your lawn: {0}", "Plan Ihres Rasens: {0}"),
        (OwnerText.PictureLawnMiddle, "the cross marks the middle, far from every wire", "das Kreuz zeigt die Mitte, weit von jedem Draht"),
        (OwnerText.PictureLawnPlace, "the thick line marks the place", "die dicke Linie zeigt die Stelle"),
        (OwnerText.PictureLawnPieces, "the thick lines mark the pieces to look at, numbered as you pass them from the station", "die dicken Linien zeigen die Stücke zum Ansehen, gezählt, wie Sie von der Station aus daran vorbeikommen"),
        (OwnerText.Piece, "Piece {0}: {1}", "Stück {0}: {1}"),
        (OwnerText.PictureLamp, "The lamp on the station, shaded with a hand", "Die Lampe an der Station, mit der Hand abgeschirmt"),
        (OwnerText.PictureOutlet, "A lamp plugged into the station's outlet", "Eine Lampe in der Steckdose der Station"),
        (OwnerText.PictureSupply, "Meter on volts at the power supply's low-voltage plug", "Messgerät auf Volt am Kleinspannungsstecker des Netzteils"),
        (OwnerText.PictureEarth, "Meter on Ω from end A to an earth stake, both ends off the station", "Messgerät auf Ω von Ende A zum Erdspieß, beide Enden von der Station ab"),
        (OwnerText.PictureInsulation, "Insulation tester between the wire, its two ends joined, and an earth stake; nothing else connected", "Isolationsprüfer zwischen dem Draht, dessen Enden verbunden sind, und einem Erdspieß; sonst ist nichts angeschlossen"),
        (OwnerText.PictureEarthRatio, "Battery between A and B, meter on volts from A to an earth stake, then from B to it; then the battery turned round", "Batterie zwischen A und B, Messgerät auf Volt von A zum Erdspieß, dann von B; danach die Batterie umgedreht"),
        (OwnerText.PictureCapacitance, "Capacitance meter from end A to an earth stake, then from end B to it", "Kapazitätsmessgerät von Ende A zum Erdspieß, dann von Ende B"),
        (OwnerText.PictureSplit, "The wire opened: meter on Ω from one side to A, then from the other to B, through the long test lead", "Der Draht geöffnet: Messgerät auf Ω von der einen Seite nach A, dann von der anderen nach B, über die lange Messleitung"),
        (OwnerText.PictureBypass, "A wire on the grass across the stretch, meter on Ω between A and B", "Ein Draht auf dem Gras über das Stück, Messgerät auf Ω zwischen A und B"),
        (OwnerText.PictureTone, "Tone generator between the end and an earth stake, listening a hand above the wire", "Tongenerator zwischen dem Ende und einem Erdspieß, gehört wird eine Handbreit über dem Draht"),
        (OwnerText.PictureEcho, "Reflectometer between the end and an earth stake, the other end free", "Reflektometer zwischen dem Ende und einem Erdspieß, das andere Ende frei"),
        (OwnerText.PictureAcRatio, "Tone generator between A and B, meter on AC volts from A to an earth stake, then from B to it", "Tongenerator zwischen A und B, Messgerät auf Wechselspannung von A zum Erdspieß, dann von B"),
        (OwnerText.PictureGuide, "Meter on Ω: one tip on the guide wire G, the other on A, then on B", "Messgerät auf Ω: eine Spitze am Leitdraht G, die andere an A, dann an B"),
        (OwnerText.PictureDrop, "Battery across A and B at the station, two needles either side of the joint, meter on millivolts", "Batterie an A und B der Station, zwei Nadeln beidseits des Verbinders, Messgerät auf Millivolt"),
        (OwnerText.PicturePin, "Meter on Ω: the needle in the bared wire, the long lead to A, then to B", "Messgerät auf Ω: die Nadel im freigelegten Draht, die lange Leitung an A, dann an B"),
        (OwnerText.PictureGradient, "Battery from A to a far stake, meter between two stakes over the wire, red towards B", "Batterie von A an einen fernen Spieß, Messgerät zwischen zwei Spießen über dem Draht, Rot nach B hin"),
        (OwnerText.PictureWiggle, "Meter on Ω between A and B, watched while the wire is bent at the joint", "Messgerät auf Ω zwischen A und B, im Blick, während der Draht am Verbinder bewegt wird"),
        (OwnerText.PictureTerminals, "Both ends pulled off their terminals and looked at", "Beide Enden von den Klemmen gezogen und angesehen"),
        (OwnerText.PictureCharge, "The mower on its station, the contacts touching", "Der Mäher auf der Station, die Kontakte berühren sich"),
        (OwnerText.PictureStation, "station", "Station"),
        (OwnerText.PictureStart, "The mower on the grass, you behind it", "Der Mäher auf dem Gras, Sie dahinter"),
        (OwnerText.PictureReach, "From the wire towards the middle: measure to where it stops", "Vom Draht zur Mitte: gemessen wird bis dorthin, wo er stehen bleibt"),
        (OwnerText.HeadingLoop, "Measure the wire in the lawn", "Den Draht im Rasen messen"),
        (OwnerText.HeadingGuide, "Measure the wire across the lawn", "Den Draht quer durch den Rasen messen"),
        (OwnerText.HeadingLook, "Walk a piece of the wire and look", "Ein Stück am Draht entlanggehen und schauen"),
        (OwnerText.HeadingTerminals, "Look at the two wire ends at the station", "Die beiden Drahtenden an der Station ansehen"),
        (OwnerText.HeadingMains, "Get power back to the outlet", "Die Steckdose wieder mit Strom versorgen"),
        (OwnerText.StepsFromStation, "It begins about {0} steps from the station, along the edge.", "Sie beginnt etwa {0} Schritte von der Station, am Rand entlang."),
    ];

    /// <summary>A text.</summary>
    public string this[OwnerText text] => _texts[text];

    /// <summary>A day as readers of this language write it.</summary>
    public string Day(DateOnly day) => day.ToString(Language == "de" ? "dd.MM.yyyy" : "d MMM yyyy", System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>A moment as readers of this language write it.</summary>
    public string Moment(DateTimeOffset at) => $"{Day(DateOnly.FromDateTime(at.DateTime))}, {at.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture)}";

    /// <summary>What a question is called, in an owner's words where the trade has others.</summary>
    public string Heading(StepKind step) => step switch
    {
        StepKind.LoopResistance => this[OwnerText.HeadingLoop],
        StepKind.GuideResistance => this[OwnerText.HeadingGuide],
        StepKind.Look => this[OwnerText.HeadingLook],
        StepKind.TerminalLook => this[OwnerText.HeadingTerminals],
        StepKind.RestoreMains => this[OwnerText.HeadingMains],
        _ => Steps[step].Title,
    };

    /// <summary>What a field of an owner's form is called.</summary>
    public string Label(StepKind step, StepField field) => (step, field.Name) switch
    {
        (StepKind.LoopResistance or StepKind.GuideResistance, "leadOhms") => this[OwnerText.ProbesTogether],
        (StepKind.LoopResistance, "ohms") => this[OwnerText.OnWireEnds],
        (StepKind.GuideResistance, "ohmsA") => this[OwnerText.GuideToA],
        (StepKind.GuideResistance, "ohmsB") => this[OwnerText.GuideToB],
        _ => Answers.Label(step, field),
    };

    /// <summary>The language by its tag; English when it is not one of ours.</summary>
    public static OwnerTexts Of(string? language) =>
        language is not null && language.StartsWith("de", StringComparison.OrdinalIgnoreCase) ? German : English;

    /// <summary>A text with its gaps filled; what is put in is never read as a format.</summary>
    public string Say(OwnerText text, params ReadOnlySpan<object> gaps) => string.Format(CultureInfo.InvariantCulture, _texts[text], gaps);
}
