using System.Text;
using System.Text.Json;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

/// <summary>Visits as iCalendar, read back by a library that knows nothing of us (Ical.Net).</summary>
public sealed class VisitCalendarTests
{
    private static readonly DateTimeOffset Made = new(2026, 5, 14, 9, 30, 0, TimeSpan.FromHours(2));

    [Fact]
    public void A_visit_with_a_time_is_read_back_with_place_words_and_length()
    {
        RecordState visit = Visit(("on", "2026-06-03"), ("at", "08:15"), ("minutes", 90));
        CalendarVisit entry = new(visit, "Besuch: Grüner Winkel; hinten, links", ["dreht um, halb\\quer", "Odo Quillfeather, 01632 960 123"], "3 Mill Lane,\nWeasel Green", (52.100001, -5.3));
        CalendarEvent read = Assert.Single(Calendar.Load(Encoding.UTF8.GetString(VisitCalendar.Write([entry])))!.Events);
        Assert.Equal($"{visit.Id}@swardloop", read.Uid);
        Assert.Equal("Besuch: Grüner Winkel; hinten, links", read.Summary);
        Assert.Equal("dreht um, halb\\quer\nOdo Quillfeather, 01632 960 123", read.Description);
        Assert.Equal("3 Mill Lane,\nWeasel Green", read.Location);
        Assert.Equal(new DateTime(2026, 6, 3, 8, 15, 0), read.DtStart!.Value);
        Assert.Equal(new DateTime(2026, 6, 3, 9, 45, 0), read.DtEnd!.Value);
        Assert.Null(read.DtStart.TzId);
        Assert.False(read.DtStart.IsUtc);
        Assert.Equal((52.100001, -5.3), (read.GeographicLocation!.Latitude, read.GeographicLocation.Longitude));
        Assert.Equal(new DateTime(2026, 5, 14, 7, 30, 0), read.DtStamp!.Value);
        Assert.Equal("CONFIRMED", read.Status);
    }

    [Fact]
    public void A_visit_without_a_time_is_a_whole_day_one_put_away_is_cancelled_and_one_without_a_day_is_left_out()
    {
        Calendar read = Calendar.Load(Encoding.UTF8.GetString(VisitCalendar.Write(
        [
            new(Visit(("on", "2026-12-31")), "a", [], null, null), new(Visit(("on", "2026-06-03"), ("at", "later"), ("archived", true)), "b", [], null, null), new(Visit(("at", "08:00")), "c", [], null, null),
        ])))!;
        Assert.Equal(["a", "b"], read.Events.Select(one => one!.Summary));
        Assert.True(read.Events[0]!.IsAllDay);
        Assert.Equal(new DateOnly(2027, 1, 1), read.Events[0]!.DtEnd!.Date);
        Assert.Equal("CANCELLED", read.Events[1]!.Status);
    }

    [Fact]
    public void Lines_end_as_the_standard_says_and_none_is_longer_than_75_octets_or_parts_a_character()
    {
        string longWords = string.Concat(Enumerable.Repeat("Läuft über den Weg 🌱 und wieder, ", 20)) + "\a";
        byte[] bytes = VisitCalendar.Write([new(Visit(("on", "2026-06-03")), longWords, [longWords], longWords, null)]);
        string text = new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes);
        string[] lines = text.Split("\r\n");
        Assert.Equal("", lines[^1]);
        Assert.All(lines, line => Assert.True(Encoding.UTF8.GetByteCount(line) <= 75 && !line.Contains('\n', StringComparison.Ordinal)));
        Assert.Equal(longWords.Replace("\a", "", StringComparison.Ordinal).Trim(), Assert.Single(Calendar.Load(text)!.Events).Summary!.Trim());
        Assert.Equal(bytes, VisitCalendar.Write([new(Visit(("on", "2026-06-03")), longWords, [longWords], longWords, null)]));
    }

    private static RecordState Visit(params (string Field, object Value)[] set)
    {
        Guid id = new("01980000-0000-7000-8000-000000000071");
        Change change = new(
            new("01980000-0000-7000-8000-000000000072"), RecordKind.Visit, id,
            set.ToDictionary(one => one.Field, one => JsonSerializer.SerializeToElement(one.Value)), new Dictionary<string, IReadOnlyList<Guid>>(), Made);
        return RecordState.New(id, RecordKind.Visit).With(change, "Robin", 7);
    }
}
