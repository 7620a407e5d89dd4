using System.Globalization;
using System.Text;
using System.Text.Unicode;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>Reads lines of coordinates under a heading that names them: <c>x,y</c> in metres, or <c>lat,lon</c> in degrees, in any
/// order, other columns ignored. A column <c>role</c> tells loop, lawn, metal, neighbour and guide apart: rows of one role that follow each
/// other are one line. Separated by commas, semicolons or tabs; decimal points.</summary>
internal static class CsvReader
{
    private const string HeadingAllowed = "a heading with x,y or lat,lon";

    public static Sketch? Read(ReadOnlyMemory<byte> file, ProblemList problems)
    {
        if (!Utf8.IsValid(file.Span))
        {
            problems.Add("", "the file is not UTF-8 text", "UTF-8");
            return null;
        }

        using StringReader text = new(Encoding.UTF8.GetString(file.Span).TrimStart('\uFEFF'));
        int row = 0;
        string? heading;
        do
        {
            heading = text.ReadLine();
            row++;
        }
        while (heading is not null && string.IsNullOrWhiteSpace(heading));

        char separator = heading is null ? ',' : heading.Contains(';', StringComparison.Ordinal) ? ';' : heading.Contains('\t', StringComparison.Ordinal) ? '\t' : ',';
        string[] names = [.. Cells(heading ?? "", separator).Select(name => name.ToLowerInvariant())];
        (int x, int y) = (Column(names, "x"), Column(names, "y"));
        (int longitude, int latitude) = (Column(names, "lon", "longitude"), Column(names, "lat", "latitude"));
        bool geographic = longitude >= 0 && latitude >= 0;
        if (!geographic && !(x >= 0 && y >= 0))
        {
            problems.Add($"line {row}", heading is null ? "the file is empty" : $"got \"{JsonText.Shortened(heading)}\"", HeadingAllowed);
            return null;
        }

        return geographic
            ? ReadRows(text, row, separator, new(longitude, SketchReader.LongitudeDegrees), new(latitude, SketchReader.LatitudeDegrees), Column(names, "role"), true, problems)
            : ReadRows(text, row, separator, new(x, YardLimits.Coordinate), new(y, YardLimits.Coordinate), Column(names, "role"), false, problems);
    }

    private static Sketch ReadRows(
        StringReader text, int row, char separator, CoordinateColumn east, CoordinateColumn north, int roleColumn, bool geographic, ProblemList problems)
    {
        List<SketchShape> shapes = [];
        List<SketchPoint> points = [];
        SketchRole role = SketchRole.Loop;
        int started = row + 1;
        while (text.ReadLine() is string line)
        {
            row++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            string[] cells = Cells(line, separator);
            SketchRole next = role;
            if (roleColumn >= 0)
            {
                string word = roleColumn < cells.Length ? cells[roleColumn] : "";
                KeyValuePair<string, SketchRole> known = SketchReader.Roles.FirstOrDefault(candidate => candidate.Key == word && candidate.Value != SketchRole.Joint);
                if (known.Key is null)
                {
                    problems.Add($"line {row}, role", $"got \"{JsonText.Shortened(word)}\"", "loop, lawn, metal, neighbour, guide");
                    continue;
                }

                next = known.Value;
            }

            if (next != role)
            {
                Finish();
                (role, started) = (next, row);
            }

            bool good = east.TryRead(cells, row, problems, out double x) & north.TryRead(cells, row, problems, out double y);
            if (good)
            {
                points.Add(new(x, y));
            }
        }

        Finish();
        return new Sketch(shapes, geographic);

        void Finish()
        {
            if (points.Count > YardLimits.TrackPoints)
            {
                problems.Add($"line {started}", $"{points.Count} points in one line", $"at most {YardLimits.TrackPoints}");
            }
            else if (points.Count > 0)
            {
                shapes.Add(new(role, $"line {started}", [[.. points]]));
            }

            points.Clear();
        }
    }

    private static int Column(string[] names, params string[] wanted) => Array.FindIndex(names, name => wanted.Contains(name));

    internal static string[] Cells(string line, char separator) => [.. line.Split(separator).Select(cell => cell.Trim().Trim('"').Trim())];

    private sealed record CoordinateColumn(int Index, NumberRange Range)
    {
        public bool TryRead(string[] cells, int row, ProblemList problems, out double value)
        {
            string text = Index < cells.Length ? cells[Index] : "";
            if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && Range.Holds(value))
            {
                return true;
            }

            problems.Add($"line {row}", $"got \"{JsonText.Shortened(text)}\"", Range.ToString());
            return false;
        }
    }
}
