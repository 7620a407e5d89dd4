using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>File formats that drawings are imported from.</summary>
public enum SketchFormat
{
    /// <summary>GeoJSON, RFC 7946.</summary>
    GeoJson,

    /// <summary>GPX 1.1.</summary>
    Gpx,

    /// <summary>Lines of x,y or lat,lon.</summary>
    Csv,
}

/// <summary>Reads drawings in any of the formats.</summary>
public static class SketchReader
{
    /// <summary>Words of the property <c>role</c>, of GPX's <c>type</c> and of CSV's column <c>role</c>.</summary>
    public static IReadOnlyList<KeyValuePair<string, SketchRole>> Roles { get; } =
    [
        new("loop", SketchRole.Loop),
        new("lawn", SketchRole.Lawn),
        new("metal", SketchRole.Metal),
        new("neighbour", SketchRole.Neighbour),
        new("joint", SketchRole.Joint),
        new("guide", SketchRole.Guide),
    ];

    internal static NumberRange LatitudeDegrees => YardLimits.Latitude;

    internal static NumberRange LongitudeDegrees => YardLimits.Longitude;

    /// <summary>Which format a file is in, by how it begins: a brace, an angle bracket, or anything else.</summary>
    public static SketchFormat FormatOf(ReadOnlySpan<byte> file)
    {
        file = file.StartsWith("\uFEFF"u8) ? file[3..] : file;
        file = file.TrimStart(" \t\r\n"u8);
        return file switch
        {
            [(byte)'{', ..] => SketchFormat.GeoJson,
            [(byte)'<', ..] => SketchFormat.Gpx,
            _ => SketchFormat.Csv,
        };
    }

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its bytes.</param>
    /// <param name="format">Its format.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns><see langword="null"/> when there was a problem.</returns>
    public static Sketch? Read(ReadOnlyMemory<byte> file, SketchFormat format, ProblemList problems)
    {
        int before = problems.Count;
        if (file.Length > JsonText.MostBytes)
        {
            problems.Add("", $"the file has {file.Length} bytes", $"at most {JsonText.MostBytes}");
            return null;
        }

        Sketch? sketch = format switch
        {
            SketchFormat.GeoJson => GeoJsonReader.Read(file, problems),
            SketchFormat.Gpx => GpxReader.Read(file, problems),
            SketchFormat.Csv => CsvReader.Read(file, problems),
            _ => throw new ArgumentOutOfRangeException(nameof(format), format, "No such format."),
        };
        return problems.Count == before ? sketch : null;
    }
}
