using System.Text;
using System.Text.Json;
using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop import</c>: a yard file of drawings from a map, a walk with a receiver, or a table.</summary>
internal sealed class ImportCommand : ICommand
{
    private const double DefaultConductorSquareMillimetres = 0.75;

    private static readonly Dictionary<string, SketchFormat> Formats = new()
    {
        ["geojson"] = SketchFormat.GeoJson,
        ["gpx"] = SketchFormat.Gpx,
        ["csv"] = SketchFormat.Csv,
    };

    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("import", "Make a yard file of GeoJSON, GPX tracks or a table of x,y or lat,lon.")
    {
        Positionals = [new("FILE", "Drawings: a line is the loop, a polygon the lawn, others by their role; - reads standard input.")],
        Options =
        [
            new("--format", "geojson|gpx|csv", "What FILE is; told by how it begins unless given."),
            new("--out", "YARD", "Where to write the yard file; printed unless given."),
            new("--conductor-mm2", "MM2", "Copper wire of that cross-section, where FILE does not say; default 0.75."),
            new("--name", "NAME", "The yard's name; from FILE unless given."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        string? formatName = call.Value("--format");
        if (formatName is not null && !Formats.ContainsKey(formatName))
        {
            throw call.Wrong("--format", $"{SafeText.Quoted(formatName)} is unknown", string.Join(", ", Formats.Keys));
        }

        string? name = call.Value("--name");
        if (name is not null && name.Length is 0 or > YardLimits.TextCharacters)
        {
            throw call.Wrong("--name", SafeText.Quoted(name), $"1 to {YardLimits.TextCharacters} characters");
        }

        double area = call.Number("--conductor-mm2", YardLimits.Area.Least, YardLimits.Area.Most, "mm²") ?? DefaultConductorSquareMillimetres;
        OutputFile.RefuseRead(call, ["--out"], call.Positionals[0]);
        InputText file = call.ReadFile();
        ProblemList problems = new(file.Name);
        if (SketchReader.Read(file.Bytes, formatName is null ? SketchReader.FormatOf(file.Bytes) : Formats[formatName], problems) is not Sketch sketch)
        {
            throw WrongInputException.Of(Checked<YardFile>.Bad(problems));
        }

        string fallback = file.Name == call.Positionals[0] && Path.GetFileNameWithoutExtension(file.Name) is { Length: > 0 } stem ? stem : "Imported yard";
        Checked<YardFile> made = SketchYard.Make(sketch, name ?? sketch.Name ?? fallback, new Conductor { AreaSquareMetres = area / 1e6 }, file.Name);
        if (!made.IsGood)
        {
            throw WrongInputException.Of(made);
        }

        if (call.Value("--out") is not string path)
        {
            return new YardResult(made.Value);
        }

        OutputFile.Write(path, made.Value.ToUtf8());
        return new WrittenResult(path, made.Value);
    }

    /// <summary>The yard file itself, which is JSON for people and machines alike.</summary>
    private sealed class YardResult(YardFile file) : CommandResult
    {
        public override void WriteText(TextWriter text) => text.Write(Encoding.UTF8.GetString(file.ToUtf8()));

        public override void WriteJson(Utf8JsonWriter json)
        {
            using JsonDocument document = JsonDocument.Parse(file.ToUtf8());
            document.RootElement.WriteTo(json);
        }
    }

    /// <summary>What was written where.</summary>
    private sealed class WrittenResult(string path, YardFile file) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            Yard yard = file.Yard;
            text.WriteLine($"{SafeText.OneLine(yard.Name, 60)}: {Figures.Plain(yard.Loop.LengthMetres, 4)} m of wire round {Figures.Plain(yard.Lawn.AreaSquareMetres, 3)} m² of lawn");
            text.WriteLine($"written to {SafeText.OneLine(path, 200)}");
            foreach (Problem note in file.Notes)
            {
                text.WriteLine($"note: {note.Message}");
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteString("file", path);
            json.WriteString("name", file.Yard.Name);
            json.WriteFigure("lengthM", file.Yard.Loop.LengthMetres);
            json.WriteFigure("lawnM2", file.Yard.Lawn.AreaSquareMetres);
            json.WriteStartArray("notes");
            foreach (Problem note in file.Notes)
            {
                json.WriteStringValue(note.Message);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }
    }
}
