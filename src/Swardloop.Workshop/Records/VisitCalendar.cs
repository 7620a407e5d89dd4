using System.Globalization;
using System.Text;

namespace Swardloop.Workshop.Records;

/// <summary>Visits as iCalendar (RFC 5545), for any calendar program. A visit keeps its UID, so that taking it in again moves it instead of doubling it.</summary>
/// <remarks>Times of day are written as local times without a zone (RFC 5545, 3.3.5, form 1): the workshop drives by the clock on its wall. A visit
/// without a time is an event of the whole day.</remarks>
public static class VisitCalendar
{
    private const int DefaultMinutes = 60, LongestLine = 75;

    /// <summary>Writes a calendar.</summary>
    /// <param name="visits">The visits with what is known of them; those without a day are left out.</param>
    public static byte[] Write(IEnumerable<CalendarVisit> visits)
    {
        StringBuilder text = new();
        Line("BEGIN:VCALENDAR");
        Line("VERSION:2.0");
        Line("PRODID:-//Swardloop//Visits//EN");
        foreach (CalendarVisit visit in visits)
        {
            if (DateOnly.TryParseExact(visit.Visit.Text("on"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day))
            {
                Event(visit, day);
            }
        }

        Line("END:VCALENDAR");
        return Encoding.UTF8.GetBytes(text.ToString());

        void Event(CalendarVisit visit, DateOnly day)
        {
            Line("BEGIN:VEVENT");
            Line($"UID:{visit.Visit.Id}@swardloop");

            // When the record was last changed, not when the file is written: the same visit gives the same bytes.
            Line($"DTSTAMP:{Utc(visit.Visit["on"].Shown?.MadeAt ?? DateTimeOffset.UnixEpoch)}");
            Line($"SEQUENCE:{visit.Visit.Version.ToString(CultureInfo.InvariantCulture)}");
            if (TimeOnly.TryParseExact(visit.Visit.Text("at"), ["HH:mm", "H:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out TimeOnly at))
            {
                DateTime start = day.ToDateTime(at);
                Line($"DTSTART:{Local(start)}");
                Line($"DTEND:{Local(start.AddMinutes(Math.Max(1, Math.Round(visit.Visit.Number("minutes") ?? DefaultMinutes))))}");
            }
            else
            {
                Line($"DTSTART;VALUE=DATE:{day.ToString("yyyyMMdd", CultureInfo.InvariantCulture)}");
                Line($"DTEND;VALUE=DATE:{day.AddDays(1).ToString("yyyyMMdd", CultureInfo.InvariantCulture)}");
            }

            Line($"SUMMARY:{Escaped(visit.Summary)}");
            string[] words = [.. visit.Description.Where(line => line.Length > 0)];
            if (words.Length > 0)
            {
                Line($"DESCRIPTION:{Escaped(string.Join('\n', words))}");
            }

            if (visit.Address is { Length: > 0 } address)
            {
                Line($"LOCATION:{Escaped(address)}");
            }

            if (visit.Position is { } place)
            {
                Line(string.Create(CultureInfo.InvariantCulture, $"GEO:{place.Latitude:0.000000};{place.Longitude:0.000000}"));
            }

            Line(visit.Visit.Flag("archived") ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
            Line("END:VEVENT");
        }

        // Lines of at most 75 octets, continued after a blank, never within a character.
        void Line(string line)
        {
            int octets = 0;
            foreach (Rune rune in line.EnumerateRunes())
            {
                if (octets + rune.Utf8SequenceLength > LongestLine)
                {
                    text.Append("\r\n ");
                    octets = 1;
                }

                text.Append(rune.ToString());
                octets += rune.Utf8SequenceLength;
            }

            text.Append("\r\n");
        }
    }

    private static string Escaped(string text) => string.Concat(text.Replace("\r", "", StringComparison.Ordinal).Where(c => c == '\n' || !char.IsControl(c)))
        .Replace(@"\", @"\\", StringComparison.Ordinal).Replace(";", @"\;", StringComparison.Ordinal)
        .Replace(",", @"\,", StringComparison.Ordinal).Replace("\n", @"\n", StringComparison.Ordinal);

    private static string Local(DateTime at) => at.ToString("yyyyMMdd'T'HHmmss", CultureInfo.InvariantCulture);

    private static string Utc(DateTimeOffset at) => at.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
}

/// <summary>A visit and what its calendar entry says.</summary>
/// <param name="Visit">The visit's record.</param>
/// <param name="Summary">The entry's title.</param>
/// <param name="Description">Lines below it.</param>
/// <param name="Address">Where to; null when not known.</param>
/// <param name="Position">Degrees north and east (WGS 84); null when the drawing has no place on earth.</param>
public sealed record CalendarVisit(RecordState Visit, string Summary, IReadOnlyList<string> Description, string? Address, (double Latitude, double Longitude)? Position);
