using System.Text;
using System.Text.Json;
using Json.Schema;
using Swardloop.Core.Calibration;
using Swardloop.Model.Bench;
using Swardloop.Model.Checks;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Bench;

public sealed class BenchFileTests
{
    private const string Yard = """
        { "format": "swardloop-yard/1", "name": "Test loop",
          "loop": { "path": [[3,0],[6,0],[6,8],[0,8],[0,0],[3,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromFile(Path.Combine(Examples.Repository, "docs", "schemas", "bench.schema.json"));

    [Fact]
    public void Example_fits_the_default_profile_and_predicts_the_rest()
    {
        Checked<BenchFile> read = BenchFile.Read(
            File.ReadAllBytes(Path.Combine(Examples.Repository, "examples", "otter-bench.bench.json")), "otter-bench.bench.json", _ => null);
        Assert.Empty(read.Lines());

        // Common practice, no source (P5, P6): the default profile. Tolerance 3 %: here the loops have reactance (1 %) and the
        // small loop's wire adds its half ohm.
        ProfileFit fit = ProfileFit.To(read.Value!.Trials);
        Assert.Equal(4581, fit.ReachConstantOhmMetres.Best, tolerance: 137.0);
        Assert.Equal(107, fit.SourceOhms.Best, tolerance: 4.0);
        Assert.Equal([180.0, 412.0, 900.0], read.Value.PredictOhms);
        Assert.True(fit.Predict(read.Value.Site, read.Value.Site.WireOhms + 180).CoversProbability > 0.9);
    }

    [Fact]
    public void Every_kind_of_trial_is_read()
    {
        BenchFile file = Read("""
            { "addedOhms": 100, "seen": "covers-all" }, { "addedOhms": 2200, "seen": "silent-in-middle" },
            { "addedOhms": 557, "seen": "turns-back", "distanceM": 2 }, { "loopOhms": 400, "seen": "limit" }
            """).Value!;
        double wire = file.Site.WireOhms;
        Assert.InRange(wire, 0.5, 0.8); // 28 m of 0.75 mm²: 0.63 Ω
        Assert.Equal(
        [
            new CoverTrial(file.Site, wire + 100, true), new CoverTrial(file.Site, wire + 2200, false),
            new ReachTrial(file.Site, wire + 557, 2, 0.3), new LimitTrial(file.Site, 400, 40),
        ], file.Trials);
        Assert.Equal(BenchFile.DefaultPredictOhms, file.PredictOhms);
    }

    [Fact]
    public void Yard_of_its_own_file_is_read_once_for_all()
    {
        string text = """{ "format": "swardloop-bench/1", "name": "n", "yard": "a.yard.json", "trials": [ { "yard": "a.yard.json", "addedOhms": 5, "seen": "covers-all" } ] }""";
        Checked<BenchFile> read = BenchFile.Read(Encoding.UTF8.GetBytes(text), "t", path => path == "a.yard.json" ? Encoding.UTF8.GetBytes(Yard) : null);
        Assert.Same(read.Value!.Site, read.Value.Trials[0].Site);
        Checked<BenchFile> missing = BenchFile.Read(Encoding.UTF8.GetBytes(text), "t", _ => null);
        Assert.Contains(missing.Problems, problem => problem.Place == "yard");
    }

    [Fact]
    public void All_problems_are_told_at_once_with_their_places()
    {
        string[] places = [.. Read("""
            { "seen": "covers-all" }, { "addedOhms": 5, "loopOhms": 6, "seen": "limit" }, { "addedOhms": -1, "seen": "covers-all" },
            { "addedOhms": 5, "seen": "flew" }, { "addedOhms": 5, "seen": "turns-back" }, 7,
            { "addedOhms": 5, "seen": "limit", "distanceM": 2 }, { "addedOhms": 5, "seen": "covers-all", "uncertaintyOhms": 2 }
            """, "1e9").Problems.Select(problem => problem.Place)];
        Assert.Equal(
        [
            "trials[0]", "trials[1]", "trials[2].addedOhms", "trials[3].seen", "trials[4].distanceM", "trials[5]",
            "trials[6].distanceM", "trials[7].uncertaintyOhms", "predict[0]",
        ], places);
    }

    [Theory]
    [InlineData("""{ "format": "swardloop-bench/2", "name": "n", "yard": {}, "trials": [] }""", "format")]
    [InlineData("""{ "name": "n", "yard": {}, "trials": [] }""", "format")]
    [InlineData("""[]""", "")]
    [InlineData("""{ "format": "swardloop-bench/1", "name": "n", "yard": 5, "trials": [ { "addedOhms": 5, "seen": "covers-all" } ] }""", "yard")]
    [InlineData("""{ "format": "swardloop-bench/1", "yard": "x", "trials": [] }""", "trials")]
    public void Wrong_file_is_refused_at_its_place(string text, string place)
    {
        Checked<BenchFile> read = BenchFile.Read(Encoding.UTF8.GetBytes(text), "t", _ => null);
        Assert.False(read.IsGood);
        Assert.Contains(read.Problems, problem => problem.Place == place);
    }

    // Every trial that the schema judges is judged alike by the reader: what it takes, the reader takes, and the other way round.
    [Theory]
    [InlineData("""{ "addedOhms": 100, "seen": "covers-all" }""", true)]
    [InlineData("""{ "addedOhms": 100, "seen": "covers-all", "weather": "rain" }""", true)]
    [InlineData("""{ "loopOhms": 45, "seen": "limit", "uncertaintyOhms": 5 }""", true)]
    [InlineData("""{ "addedOhms": 0, "seen": "turns-back", "distanceM": 0, "uncertaintyM": 0.01 }""", true)]
    [InlineData("""{ "addedOhms": 1000001, "seen": "covers-all" }""", false)]
    [InlineData("""{ "loopOhms": 0, "seen": "covers-all" }""", false)]
    [InlineData("""{ "addedOhms": 5, "loopOhms": 5, "seen": "covers-all" }""", false)]
    [InlineData("""{ "seen": "covers-all" }""", false)]
    [InlineData("""{ "addedOhms": 5 }""", false)]
    [InlineData("""{ "addedOhms": 5, "seen": "turns-back" }""", false)]
    [InlineData("""{ "addedOhms": 5, "seen": "turns-back", "distanceM": 2, "uncertaintyM": 0 }""", false)]
    [InlineData("""{ "addedOhms": 5, "seen": "turns-back", "distanceM": 2, "uncertaintyOhms": 1 }""", false)]
    [InlineData("""{ "addedOhms": 5, "seen": "limit", "distanceM": 2 }""", false)]
    [InlineData("""{ "addedOhms": "5", "seen": "covers-all" }""", false)]
    public void Schema_and_reader_agree(string trial, bool good)
    {
        using JsonDocument document = JsonDocument.Parse(Text(trial, "0"));
        Assert.Equal(good, Schema.Evaluate(document.RootElement).IsValid);
        Assert.Equal(good, Read(trial).IsGood);
    }

    [Fact]
    public void Example_meets_the_schema()
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Examples.Repository, "examples", "otter-bench.bench.json")));
        Assert.True(Schema.Evaluate(document.RootElement).IsValid);
    }

    private static string Text(string trials, string? predict) =>
        $$"""{ "format": "swardloop-bench/1", "name": "test", "yard": {{Yard}}, "trials": [ {{trials}} ] {{(predict is null ? "" : $", \"predict\": [{predict}]")}} }""";

    private static Checked<BenchFile> Read(string trials, string? predict = null) =>
        BenchFile.Read(Encoding.UTF8.GetBytes(Text(trials, predict)), "test.bench.json", _ => null);
}
