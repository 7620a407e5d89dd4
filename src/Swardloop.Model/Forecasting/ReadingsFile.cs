using System.Globalization;
using System.Text;
using System.Text.Unicode;
using Swardloop.Core.Forecasting;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;

namespace Swardloop.Model.Forecasting;

/// <summary>Readings of one loop over the years, CSV with the heading <c>at,ohms,leadOhms,temperatureC,conditions</c>: the first two columns are required, the others and
/// their values may be missing. Days or times of RFC 3339; decimal points; conditions apart by spaces. Immutable.</summary>
public sealed class ReadingsFile
{
    /// <summary>Most readings of one file.</summary>
    public const int MostReadings = 10_000;

    private const string HeadingAllowed = "at,ohms,leadOhms,temperatureC,conditions (at and ohms are required)";
    /// <summary>Years of readings: before them no robot mowed, and after them a slip of the pen is meant. Judgement, no source.</summary>
    private const int FirstYear = 1980, LastYear = 2079;

    private static readonly string[] Columns = ["at", "ohms", "leadOhms", "temperatureC", "conditions"];
    private static readonly string[] Conditions = ["wet", "dry", "frost", "moved", "mended", "accepted"];
    private static readonly NumberRange Ohms = new(0, 1e9, "Ω"), Leads = new(0, 100, "Ω"), Celsius = new(-40, 60, "°C");

    private ReadingsFile(IReadOnlyList<LoopRecord> readings) => Readings = readings;

    /// <summary>The readings, one or more, by day.</summary>
    public IReadOnlyList<LoopRecord> Readings { get; }

    /// <summary>Reads a file.</summary>
    /// <param name="utf8">Its bytes.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    public static Checked<ReadingsFile> Read(ReadOnlyMemory<byte> utf8, string sourceName)
    {
        ProblemList problems = new(sourceName);
        if (!Utf8.IsValid(utf8.Span))
        {
            problems.Add("", "the file is not UTF-8 text", "UTF-8");
            return Checked<ReadingsFile>.Bad(problems);
        }

        string[] lines = Encoding.UTF8.GetString(utf8.Span).TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');
        int heading = Array.FindIndex(lines, line => !string.IsNullOrWhiteSpace(line));
        if (heading < 0)
        {
            problems.Add("", "the file is empty", HeadingAllowed);
            return Checked<ReadingsFile>.Bad(problems);
        }

        string[] names = CsvReader.Cells(lines[heading], ',');
        int[] column = [.. Columns.Select(name => Array.FindIndex(names, cell => cell.Equals(name, StringComparison.OrdinalIgnoreCase)))];
        if (column[0] < 0 || column[1] < 0)
        {
            problems.Add($"line {heading + 1}", $"got \"{JsonText.Shortened(lines[heading])}\"", HeadingAllowed);
            return Checked<ReadingsFile>.Bad(problems);
        }

        List<LoopRecord> readings = [];
        for (int i = heading + 1; i < lines.Length; i++)
        {
            if (!string.IsNullOrWhiteSpace(lines[i]) && ReadRow(CsvReader.Cells(lines[i], ','), column, $"line {i + 1}", problems) is { } reading)
            {
                readings.Add(reading);
            }
        }

        if (!problems.Any && readings.Count is 0 or > MostReadings)
        {
            problems.Add("", $"{readings.Count} readings", $"1 to {MostReadings}");
        }

        return problems.Any ? Checked<ReadingsFile>.Bad(problems) : Checked<ReadingsFile>.Good(new([.. readings.OrderBy(reading => reading.At)]));
    }

    private static LoopRecord? ReadRow(string[] cells, int[] column, string line, ProblemList problems)
    {
        string Cell(int i) => column[i] >= 0 && column[i] < cells.Length ? cells[column[i]] : "";
        DateOnly? at = Day(Cell(0)) is { Year: >= FirstYear and <= LastYear } known ? known : null;
        if (at is null)
        {
            problems.Add($"{line}, at", $"got \"{JsonText.Shortened(Cell(0))}\"", $"a day such as 2026-04-30, or a time such as 2026-04-30T09:15:00Z, from {FirstYear} to {LastYear}");
        }

        double? ohms = Number(1, Ohms, required: true), leads = Number(2, Leads, required: false), celsius = Number(3, Celsius, required: false);
        string[] conditions = Cell(4).Split([' ', '|', '+'], StringSplitOptions.RemoveEmptyEntries);
        foreach (string unknown in conditions.Where(word => !Conditions.Contains(word)))
        {
            problems.Add($"{line}, conditions", $"got \"{JsonText.Shortened(unknown)}\"", string.Join(", ", Conditions) + ", apart by spaces");
        }

        return at is { } day && ohms is { } value
            ? new(day, value)
            {
                LeadOhms = leads ?? ObservationJson.DefaultLeadOhms,
                TemperatureCelsius = celsius,
                Wet = conditions.Contains("wet"),
                Dry = conditions.Contains("dry"),
                Frost = conditions.Contains("frost"),
                Moved = conditions.Contains("moved"),
                Begins = conditions.Contains("accepted") ? LoopBeginning.Accepted : conditions.Contains("mended") ? LoopBeginning.Mended : LoopBeginning.None,
            }
            : null;

        double? Number(int i, NumberRange range, bool required)
        {
            string text = Cell(i);
            if (text.Length == 0 && !required)
            {
                return null;
            }

            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && range.Holds(number))
            {
                return number;
            }

            problems.Add($"{line}, {Columns[i]}", $"got \"{JsonText.Shortened(text)}\"", range.ToString());
            return null;
        }
    }

    private static DateOnly? Day(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day
        : text.Length >= 17 && text[10] is 'T' or 't' or ' ' && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset time)
            ? DateOnly.FromDateTime(time.DateTime) : null;
}
