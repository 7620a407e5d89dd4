using System.Text.Json;
using Swardloop.Core.Yards;
using Swardloop.Model.Geo;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop export</c>: a yard's shapes for maps and other programs.</summary>
internal sealed class ExportCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("export", "Write a yard's wire, joints, lawn, metal and neighbours as GeoJSON.")
    {
        Positionals = [new("YARD", "A yard file; - reads standard input.") { Required = false }],
        Options =
        [
            new("--geojson", "FILE", "Where to write, in longitude and latitude."),
            new("--everything", null, "All of the workshop instead of a yard, with --into DIR: a command of the server program."),
            new("--local", null, "Plan metres instead, for a yard without datum; not what maps expect."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        if (call.Flag("--everything"))
        {
            throw call.Wrong("--everything", "is done by the server program, which this program does not hold", "./swardloop export --everything in the repository");
        }

        if (call.Positionals.Count == 0)
        {
            throw call.Wrong("YARD", "is missing", Syntax.Usage);
        }

        string path = call.Value("--geojson") ?? throw call.Wrong("--geojson", "is missing", Syntax.Usage);
        OutputFile.RefuseRead(call, ["--geojson"], call.Positionals[0]);
        Yard yard = call.ReadChecked<YardFile>(YardFile.Read).Yard;
        bool local = call.Flag("--local");
        if (yard.Datum is null && !local)
        {
            throw new WrongInputException(call.Positionals[0], "datum", "missing, so the plan has no longitude and latitude",
                "a datum in the yard file, or --local for plan metres");
        }

        OutputFile.Write(path, local ? YardGeoJson.WriteLocal(yard) : YardGeoJson.Write(yard));
        return new ExportResult(path, local);
    }

    private sealed class ExportResult(string path, bool local) : CommandResult
    {
        private string Coordinates => local ? "plan metres" : "longitude and latitude";

        public override void WriteText(TextWriter text) => text.WriteLine($"written to {SafeText.OneLine(path, 200)}, in {Coordinates}");

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteString("file", path);
            json.WriteString("coordinates", Coordinates);
            json.WriteEndObject();
        }
    }
}
