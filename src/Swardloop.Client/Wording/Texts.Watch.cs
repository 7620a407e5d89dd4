using System.Globalization;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Wording;

/// <content>What will fail next.</content>
public sealed partial class Texts
{
    private static readonly string[] GermanMonths = ["Jan.", "Feb.", "März", "April", "Mai", "Juni", "Juli", "Aug.", "Sept.", "Okt.", "Nov.", "Dez."];

    public string WatchList => Of("Watch list", "Vorschau");
    public string WatchLong => Of("Which yard loses reception next, by the readings of its loop. Dates hold nine times in ten.", "Welcher Garten als nächster den Empfang verliert, nach den Messwerten seiner Schleife. Die Zeiträume treffen neunmal von zehn zu.");
    public string WatchNone => Of("No yard yet.", "Noch kein Garten.");
    public string WatchNeedsServer => Of("The watch list is computed at the workshop: it needs reception.", "Die Vorschau wird in der Werkstatt gerechnet: Sie braucht Empfang.");
    public string WatchCount(int yards, int computing) => computing == 0
        ? Of(yards == 1 ? "1 yard" : $"{yards} yards", yards == 1 ? "1 Garten" : $"{yards} Gärten")
        : Of($"{yards} yards, {computing} of them being computed", $"{yards} Gärten, {computing} davon in Rechnung");

    public string WeakestSpot => Of("Weakest spot", "Schwächste Stelle");
    public string FivePercentOfLawn => Of("5 % of the lawn", "5 % des Rasens");
    public string RestsOn => Of("Rests on", "Beruht auf");
    public string ShowMoreYards => Of("Show more yards", "Mehr Gärten zeigen");
    public string InSpring => Of("Look at it in spring", "Im Frühjahr ansehen");
    public string InSpringOf(string yard) => Of($"Look at {yard} in spring", $"{yard} im Frühjahr ansehen");
    public string SpringPlanned(string yard, string day) => Of($"Visit to {yard} planned for {day}.", $"Besuch bei {yard} geplant für den {day}.");
    public string VisitPlannedFor(string day) => Of($"Visit {day}", $"Besuch {day}");
    public string SpringNote(string? lost) => lost is null ? Of("Measure the loop: the watch list has too few readings.", "Schleife messen: Die Vorschau hat zu wenige Messwerte.")
        : Of($"Measure the loop. Weakest spot without reception: {lost}.", $"Schleife messen. Schwächste Stelle ohne Empfang: {lost}.");

    public string Outlook => Of("When reception is lost", "Wann der Empfang ausfällt");
    public string OddFlag => Of("a reading does not fit", "ein Messwert passt nicht");
    public string BeingComputed => Of("being computed", "wird gerechnet");
    public string LayoutNotWire => Of("not even with a sound loop: the layout", "auch mit heiler Schleife nicht: die Verlegung");
    public string ReadingsCounted(int counted, int all, string? last)
    {
        string count = counted == all
            ? Of(all == 1 ? "1 reading" : $"{all} readings", all == 1 ? "1 Messwert" : $"{all} Messwerten")
            : Of($"{counted} of {all} readings", $"{counted} von {all} Messwerten");
        return last is null ? count : Of($"{count}, last {last}", $"{count}, zuletzt {last}");
    }

    /// <summary>What is said where there is no date; null where there is one.</summary>
    public string? WatchStateWords(WatchState state) => state switch
    {
        WatchState.Dated => null,
        WatchState.Few => Of("too few readings: three or more say something", "zu wenige Messwerte: ab drei sagen sie etwas"),
        WatchState.MendedSince => Of("not measured since it was mended", "seit der Reparatur nicht gemessen"),
        WatchState.Unmeasured => Of("never measured", "nie gemessen"),
        WatchState.Broken => Of("the loop was open at the last reading", "die Schleife war bei der letzten Messung unterbrochen"),
        WatchState.Layout => Of("not even a sound loop reaches 95 % of the lawn: the layout, not the wire", "auch eine heile Schleife erreicht 95 % des Rasens nicht: die Verlegung, nicht der Draht"),
        WatchState.NoDrawing => Of("the drawing cannot be computed", "der Plan lässt sich nicht rechnen"),
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Has no words."),
    };

    /// <summary>About when, in one line: a month is as near as a forecast comes.</summary>
    public string LostAbout(OutlookDates dates, DateOnly today) => dates switch
    {
        { Median: { } median } when median <= today => Of("lost already", "schon verloren"),
        { Median: { } median } => Of($"about {Month(median)}", $"etwa {Month(median)}"),
        { Low: { } low } when low <= today => Of("may be lost already", "vielleicht schon verloren"),
        { Low: { } low } => Of($"hardly before {Month(low)}", $"kaum vor {Month(low)}"),
        _ => Of("not within 20 years", "nicht in den nächsten 20 Jahren"),
    };

    /// <summary>The band; null where there is none to tell.</summary>
    public string? LostBand(OutlookDates dates, DateOnly today) => dates switch
    {
        { Low: null } => null,
        { High: { } high } when high <= today => null,
        { Low: { } low, High: { } high } => Of($"{From(low, today)} to {Month(high)}", $"{From(low, today)} bis {Month(high)}"),
        { Low: { } low } => Of($"{From(low, today)} to later than 20 years", $"{From(low, today)} bis später als 20 Jahre"),
    };

    public string OutlookLine(string weakest, string fivePercent) => Of($"Weakest spot {weakest}; 5 % of the lawn {fivePercent}.", $"Schwächste Stelle {weakest}; 5 % des Rasens {fivePercent}.");
    public string OutlookChartWords(int readings, string level, string limit) => Of(
        $"{readings} readings at 20 °C; the loop is now at {level}; the weakest spot is lost from {limit} on.", $"{readings} Messwerte bei 20 °C; die Schleife steht jetzt bei {level}; die schwächste Stelle geht ab {limit} verloren.");
    public string OutlookCaption => Of("Readings at 20 °C (hollow: not counted; square: wet ground), and how they may go on, nine in ten.", "Messwerte bei 20 °C (hohl: zählt nicht; Quadrat: nasser Boden), und wie es weitergehen kann, neun von zehn.");
    public string WeakestLimitWord => Of("weakest spot lost", "schwächste Stelle verloren");
    public string OutlookAllowing(string weakest) => Of($"Allowing for what is not known of station and mower: weakest spot {weakest}.", $"Mit dem, was von Station und Mäher nicht bekannt ist: schwächste Stelle {weakest}.");
    public string GrowsBy(string low, string median, string high) => Of($"Grows by {median} Ω a year ({low} to {high}).", $"Wächst um {median} Ω im Jahr ({low} bis {high}).");
    public string WetMore(string ohms, string deviation) => Of($"In wet ground it shows {ohms} Ω ± {deviation} more.", $"In nassem Boden zeigt sie {ohms} Ω ± {deviation} mehr.");
    public string OutlookNeedsServer => Of("Computed at the workshop: needs reception.", "In der Werkstatt gerechnet: braucht Empfang.");
    public string At20C => Of("At 20 °C", "Bei 20 °C");
    public string MeterShowed => Of("Meter", "Anzeige");
    public string Ground => Of("Ground", "Boden");
    public string GroundWords(bool wet, bool dry, string celsius, bool isMeasured) => $"{(wet ? Of("wet, ", "nass, ") : dry ? Of("dry, ", "trocken, ") : "")}{celsius} °C{(isMeasured ? "" : Of(" by date", " nach Datum"))}";
    public string CountsWord => Of("Counts", "Zählt");
    public string YesWord => Of("yes", "ja");
    public string NoWord => Of("no", "nein");

    /// <summary>A month of a year.</summary>
    public string Month(DateOnly day) => Of(day.ToString("MMM yyyy", CultureInfo.InvariantCulture), $"{GermanMonths[day.Month - 1]} {day.Year}");

    private string From(DateOnly low, DateOnly today) => low <= today ? Of("now", "jetzt") : Month(low);
}
