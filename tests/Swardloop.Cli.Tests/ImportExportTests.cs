using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class ImportExportTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("swardloop-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string At(string name) => Path.Combine(_folder, name);

    private static string Example(string name) => Repository.At($"examples/{name}.yard.json");

    [Fact]
    public void Export_and_import_bring_the_yard_back()
    {
        CliRun export = CliRun.Of("export", Example("marram-reach"), "--geojson", At("m.geojson"));
        Assert.Equal((0, $"written to {At("m.geojson")}, in longitude and latitude\n"), (export.ExitCode, export.Output));

        CliRun import = CliRun.Of("import", At("m.geojson"), "--out", At("m.yard.json"), "--json");
        Assert.Equal(0, import.ExitCode);
        using JsonDocument said = JsonDocument.Parse(import.Output);
        Assert.Equal(At("m.yard.json"), said.RootElement.GetProperty("file").GetString());
        Assert.Equal(300, said.RootElement.GetProperty("lengthM").GetDouble(), 0.01);

        using JsonDocument yard = JsonDocument.Parse(File.ReadAllText(At("m.yard.json")));
        Assert.Equal("Marram Reach", yard.RootElement.GetProperty("name").GetString());
        Assert.Equal("[65.3,0.3]", yard.RootElement.GetProperty("loop").GetProperty("path")[0].GetRawText().Replace(" ", "", StringComparison.Ordinal));
        Assert.Equal(6, yard.RootElement.GetProperty("loop").GetProperty("joints").GetArrayLength());
    }

    [Fact]
    public void Import_prints_the_yard_when_no_file_is_named_and_tells_the_format_by_itself()
    {
        CliRun run = CliRun.WithInput("x,y\n0,0\n12,0\n12,12\n0,12\n0,0\n", "import", "-", "--name", "Tansy Row", "--conductor-mm2", "1.5");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("""
            {
              "format": "swardloop-yard/1",
              "name": "Tansy Row",
              "loop": {
                "path": [[0, 0], [12, 0], [12, 12], [0, 12], [0, 0]],
                "conductor": { "material": "copper", "areaMm2": 1.5 }
              }
            }

            """.ReplaceLineEndings("\n"), run.Output);
    }

    [Fact]
    public void Export_of_a_yard_without_datum_says_what_is_missing_or_gives_metres_on_request()
    {
        string yard = Example("sorrel-corner");
        Assert.Equal($"{yard}: datum: missing, so the plan has no longitude and latitude; allowed: a datum in the yard file, or --local for plan metres",
            CliRun.Of("export", yard, "--geojson", At("s.geojson")).RefusedLine());
        Assert.False(File.Exists(At("s.geojson")));

        Assert.Equal(0, CliRun.Of("export", yard, "--geojson", At("s.geojson"), "--local").ExitCode);
        Assert.Contains("[12, 0.3]", File.ReadAllText(At("s.geojson")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("swardloop import: --format: \"dxf\" is unknown; allowed: geojson, gpx, csv", "--format", "dxf")]
    [InlineData("swardloop import: --conductor-mm2: \"0\" is not a number from 0.01 to 100; allowed: a number from 0.01 to 100 mm²", "--conductor-mm2", "0")]
    [InlineData("standard input: line 1: got \"[]\"; allowed: a heading with x,y or lat,lon")]
    public void Import_refuses_in_one_line(string expected, params string[] options) =>
        Assert.Equal(expected, CliRun.WithInput("[]", ["import", "-", .. options]).RefusedLine());

    // Directly, through a link to the file and through a link to its folder.
    [Theory]
    [InlineData("own/m.yard.json")]
    [InlineData("link.json")]
    [InlineData("folder/m.yard.json")]
    public void Nothing_is_written_over_what_is_read(string output)
    {
        Directory.CreateDirectory(At("own"));
        string yard = At("own/m.yard.json"), other = At("own/t.case.json");
        File.Copy(Example("thimble-court"), yard);
        File.WriteAllText(other, "{}");
        File.CreateSymbolicLink(At("link.json"), "own/m.yard.json");
        Directory.CreateSymbolicLink(At("folder"), "own");
        byte[] before = File.ReadAllBytes(yard);
        const string Refused = "is the file itself that is read, which would be overwritten; allowed: another file";

        Assert.Equal($"swardloop export: --geojson: {Refused}", CliRun.Of("export", yard, "--geojson", At(output), "--local").RefusedLine());
        Assert.Equal($"swardloop import: --out: {Refused}", CliRun.Of("import", yard, "--out", At(output)).RefusedLine());
        Assert.Equal($"swardloop sheet: --text: {Refused}", CliRun.Of("sheet", "quote", yard, "--html", At("q.html"), "--text", At(output)).RefusedLine());
        Assert.Equal($"swardloop reach: --svg: {Refused}", CliRun.Of("reach", yard, "--png", At("r.png"), "--svg", At(output)).RefusedLine());
        Assert.Equal($"swardloop reach: --svg: {Refused}", CliRun.Of("reach", other, "--case", yard, "--svg", At(output)).RefusedLine());

        // Refused before anything is written, not after half of it.
        Assert.False(File.Exists(At("q.html")) || File.Exists(At("r.png")));
        Assert.Equal(before, File.ReadAllBytes(yard));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_refused_in_one_line() =>
        Assert.Equal($"{At("no/where.geojson")}: cannot be written; allowed: a file in a folder that exists and that you may write to",
            CliRun.Of("export", Example("thimble-court"), "--geojson", At("no/where.geojson")).RefusedLine());
}
