using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class CalibrateCommandTests
{
    private static readonly string Example = Repository.At("examples/otter-bench.bench.json");

    [Fact]
    public void Text_is_the_approved_one() => Approved.Check("calibrate.txt", CliRun.Of("calibrate", Example).Output);

    [Fact]
    public void Json_has_the_promised_properties_and_the_default_profile()
    {
        CliRun run = CliRun.Of("calibrate", Example, "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement root = document.RootElement;

        // The readings were made from the default profile and rounded. Tolerance 3 %: it neglects the loops' reactance.
        AssertInterval(root.GetProperty("reachConstantOhmM"), 4581, 137);
        AssertInterval(root.GetProperty("sourceOhms"), 107, 4);
        JsonElement[] predictions = [.. root.GetProperty("predictions").EnumerateArray()];
        Assert.Equal([180.0, 412.0, 900.0], predictions.Select(prediction => prediction.GetProperty("addedOhms").GetDouble()));
        Assert.True(predictions[0].GetProperty("coversProbability").GetDouble() > 0.9);
        Assert.Equal(0.9, predictions[2].GetProperty("reachM").GetProperty("best").GetDouble(), tolerance: 0.15);

        static void AssertInterval(JsonElement interval, double best, double tolerance)
        {
            Assert.Equal(best, interval.GetProperty("best").GetDouble(), tolerance);
            Assert.InRange(best, interval.GetProperty("low").GetDouble(), interval.GetProperty("high").GetDouble());
        }
    }

    [Fact]
    public void One_trial_is_not_enough_and_names_the_resistor_to_add()
    {
        CliRun run = CliRun.WithInput("""
            { "format": "swardloop-bench/1", "name": "First try",
              "yard": { "format": "swardloop-yard/1", "name": "Test loop",
                "loop": { "path": [[3,0],[6,0],[6,8],[0,8],[0,0],[3,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } },
              "trials": [ { "addedOhms": 557, "seen": "turns-back", "distanceM": 2.0 } ] }
            """, "calibrate", "-", "--json");
        using JsonDocument document = JsonDocument.Parse(run.Output);
        Assert.False(document.RootElement.GetProperty("enough").GetBoolean());
        JsonElement next = document.RootElement.GetProperty("nextTrial");
        Assert.NotEqual(557, next.GetProperty("addedOhms").GetDouble());
        Assert.True(next.GetProperty("bits").GetDouble() > 0.1);
    }

    [Fact]
    public void Wrong_file_is_refused_in_one_line()
    {
        string line = CliRun.WithInput("""{ "format": "swardloop-bench/1", "name": "n", "yard": "nowhere.yard.json", "trials": [] }""", "calibrate", "-").RefusedLine();
        Assert.StartsWith("standard input: yard: no such file", line, StringComparison.Ordinal);
        Assert.Contains("trials", line, StringComparison.Ordinal);
    }
}
