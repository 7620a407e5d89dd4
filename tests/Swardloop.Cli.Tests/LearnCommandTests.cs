using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class LearnCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("learn").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string At(string name) => Path.Combine(_folder, name);

    private string Case(string name, string observations)
    {
        File.WriteAllText(At(name), $$"""
            { "format": "swardloop-case/1", "observations": [{{observations}}],
              "yard": { "format": "swardloop-yard/1", "name": "Plain",
                        "loop": { "path": [[0,0],[10,0],[10,10],[0,10],[0,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } } }
            """);
        return At(name);
    }

    [Fact]
    public void Closed_cases_are_counted_once_and_open_ones_passed_over()
    {
        string closed = Case("a.case.json", """{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }""");
        string open = Case("b.case.json", """{ "repair": "replace-supply" }""");

        CliRun first = CliRun.Of("learn", closed, open, "--into", At("p.json"), "--json");
        byte[] written = File.ReadAllBytes(At("p.json"));
        CliRun second = CliRun.Of("learn", closed, closed, "--into", At("p.json"));

        Assert.Equal((0, ""), (first.ExitCode, first.Error));
        JsonElement json = JsonDocument.Parse(first.Output).RootElement;
        Assert.Equal(1, json.GetProperty("counts").GetProperty("supply").GetDouble());
        Assert.Contains("still open", json.GetProperty("cases")[1].GetProperty("passedOver").GetString(), StringComparison.Ordinal);
        Assert.Contains("counted before", second.Output, StringComparison.Ordinal);
        Assert.Equal(written, File.ReadAllBytes(At("p.json")));
        Assert.Equal(["a.case.json", "b.case.json", "p.json"], Directory.EnumerateFiles(_folder).Select(Path.GetFileName).Order());
    }

    [Fact]
    public void A_wrong_case_leaves_the_priors_as_they_were()
    {
        string closed = Case("a.case.json", """{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }""");
        string wrong = Case("b.case.json", "7");

        Assert.Contains("observations[0]", CliRun.Of("learn", closed, wrong, "--into", At("p.json")).RefusedLine(), StringComparison.Ordinal);
        Assert.False(File.Exists(At("p.json")));
    }

    [Fact]
    public void A_file_of_another_kind_is_not_overwritten()
    {
        string closed = Case("a.case.json", """{ "repair": "replace-supply" }, { "test": "mower-check", "value": "runs" }""");
        File.WriteAllText(At("p.json"), """{ "format": "something-else/3" }""");

        Assert.Contains("format", CliRun.Of("learn", closed, "--into", At("p.json")).RefusedLine(), StringComparison.Ordinal);
        Assert.Equal("""{ "format": "something-else/3" }""", File.ReadAllText(At("p.json")));
    }
}
