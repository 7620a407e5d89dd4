using System.Globalization;
using Swardloop.Core.Forecasting;
using Swardloop.Model.Cases;

namespace Swardloop.Model.Forecasting;

/// <summary>What is said of a forecast, in one language. A language that lacks a sentence cannot be made.</summary>
public sealed class ForecastWords
{
    private readonly Dictionary<ForecastNote, string> _notes;

    private ForecastWords(Dictionary<ForecastNote, string> notes) => _notes = Enum.GetValues<ForecastNote>().All(notes.ContainsKey)
        ? notes : throw new ArgumentException("A note has no sentence.", nameof(notes));

    /// <summary>English.</summary>
    public static ForecastWords English { get; } = new(new()
    {
        [ForecastNote.OddReading] = "The reading of {0}, {1} Ω, differs from the others by more than meter, temperature and weather allow: repeat it. It hardly counts.",
        [ForecastNote.Mended] = "From {0} on the loop measures much less, as after a mend. What was read before does not count.",
        [ForecastNote.MendRecorded] = "The wire was mended before the reading of {0}, {1} Ω. What was read before does not count.",
        [ForecastNote.Accepted] = "The loop was accepted with the reading of {0}, {1} Ω: it is the baseline. What was read before does not count.",
        [ForecastNote.Moved] = "The reading of {0} was taken just after the wire was moved. It does not count.",
        [ForecastNote.TemperatureByDate] = "Where no temperature was measured, it was taken from month and latitude (± 4 K).",
        [ForecastNote.NoLatitude] = "The yard has no latitude: 50° north was taken, ± 6 K.",
        [ForecastNote.WetApart] = "Readings in wet ground were compared apart from the others.",
        [ForecastNote.FewReadings] = "With fewer than three readings the forecast rests on what is stated of all loops, hardly on this one.",
        [ForecastNote.AlreadyLost] = "The weakest spot is lost already.",
        [ForecastNote.Layout] = "Even a sound loop does not reach the weakest spot: the layout, not the wire.",
        [ForecastNote.ConductorUnknown] = "The wire's material or area is not known: what a sound loop measures is a guess.",
        [ForecastNote.BelowSound] = "The loop measures less than its wire can: the file's wire or length is not what lies there, or two places touch.",
    });

    /// <summary>German.</summary>
    public static ForecastWords German { get; } = new(new()
    {
        [ForecastNote.OddReading] = "Der Messwert vom {0}, {1} Ω, weicht von den anderen weiter ab, als Messgerät, Temperatur und Wetter erklären: bitte wiederholen. Er zählt kaum.",
        [ForecastNote.Mended] = "Ab {0} misst die Schleife viel weniger, wie nach einer Reparatur. Frühere Messwerte zählen nicht.",
        [ForecastNote.MendRecorded] = "Vor dem Messwert vom {0}, {1} Ω, wurde der Draht repariert. Frühere Messwerte zählen nicht.",
        [ForecastNote.Accepted] = "Mit dem Messwert vom {0}, {1} Ω, wurde die Schleife abgenommen: Er ist die Grundlage. Frühere Messwerte zählen nicht.",
        [ForecastNote.Moved] = "Der Messwert vom {0} entstand, gleich nachdem der Draht bewegt wurde. Er zählt nicht.",
        [ForecastNote.TemperatureByDate] = "Wo keine Temperatur gemessen wurde, gilt die nach Monat und Breitengrad (± 4 K).",
        [ForecastNote.NoLatitude] = "Der Garten hat keinen Breitengrad: angenommen sind 50° Nord, ± 6 K.",
        [ForecastNote.WetApart] = "Messwerte bei nassem Boden sind getrennt von den anderen verglichen.",
        [ForecastNote.FewReadings] = "Bei weniger als drei Messwerten beruht die Vorhersage auf dem, was für alle Schleifen angenommen ist, kaum auf dieser.",
        [ForecastNote.AlreadyLost] = "Die schwächste Stelle ist schon verloren.",
        [ForecastNote.Layout] = "Auch eine heile Schleife erreicht die schwächste Stelle nicht: Es liegt an der Verlegung, nicht am Draht.",
        [ForecastNote.ConductorUnknown] = "Werkstoff oder Querschnitt des Drahts ist nicht bekannt: Was eine heile Schleife misst, ist geraten.",
        [ForecastNote.BelowSound] = "Die Schleife misst weniger, als ihr Draht messen kann: Dort liegt anderer Draht, als in der Datei steht, oder zwei Stellen berühren sich.",
    });

    /// <summary>The word of a note in machine output.</summary>
    public static string NameOf(ForecastNote note) => WireName.Of(note);

    /// <summary>A note as a sentence.</summary>
    /// <param name="note">The note.</param>
    /// <param name="reading">The reading it is about, or null.</param>
    public string Say(ForecastNote note, ReadingAt20C? reading) => Say(note, reading?.Record.At, reading?.Record.Ohms ?? 0);

    /// <summary>The same, of a reading by its day and what the meter showed (Ω).</summary>
    public string Say(ForecastNote note, DateOnly? day, double shownOhms) => day is not { } at
        ? _notes[note]
        : string.Format(CultureInfo.InvariantCulture, _notes[note], at.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Math.Round(shownOhms, 2));
}
