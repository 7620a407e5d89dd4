using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class PracticeCommandTests
{
    [Fact]
    public void A_conversation_runs_from_the_complaint_to_the_ways_side_by_side()
    {
        CliRun run = CliRun.WithInput("station-lamp by=owner\nsplit-resistance\nremake-joint atM=42.6\nmower-check by=owner\nnot read any more\n", "practice", "--level", "easy", "--seed", "7");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        string[] lines = run.Output.Split('\n');
        Assert.StartsWith("A practice yard, easy. The owner says: ", lines[0], StringComparison.Ordinal);
        Assert.Contains("[0.00 spent, 0 min] > station's lamp is normal (owner)", lines);
        Assert.Contains("  2 min, 0.50 EUR", lines);
        Assert.Contains("[0.50 spent, 2 min] > step: atM: missing; allowed: where, along the wire from", lines);
        Assert.Contains("  12 min, 59.00 EUR, the way there included", lines);
        Assert.Contains("[59.50 spent, 14 min] > mower checked: runs (owner)", lines);
        Assert.Contains("It was: bad joint or corroded wire, joint 3, at the", lines);

        // What the advice says changes with the advice; what was paid does not.
        Assert.Contains(lines, line => line.StartsWith("  remake-joint atM=42.6                        59.00 ", StringComparison.Ordinal));
        Assert.Contains("you: 62.00 EUR, 24 min, 3 steps", lines);
        Assert.Contains("printed card: 73.00 EUR, 38 min, 5 steps", lines);
        Assert.Contains("who knew it: 61.50 EUR, 22 min, 2 steps", lines);
        Assert.Contains(lines, line => line.StartsWith("advice: ", StringComparison.Ordinal));
    }

    [Fact]
    public void Json_answers_line_by_line_and_tells_the_truth_last()
    {
        CliRun run = CliRun.WithInput("{\"step\":\"station-lamp\",\"by\":\"owner\"}\nnonsense\n{\"step\":\"dance\"}\n{\"end\":true}\n", "practice", "--level", "usual", "--seed", "4", "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        string[] lines = run.Output.TrimEnd('\n').Split('\n');
        Assert.Equal(5, lines.Length);
        Assert.Equal("swardloop-case/1", Parsed(lines[0]).GetProperty("format").GetString());
        Assert.Equal(0.5, Parsed(lines[1]).GetProperty("money").GetDouble());
        Assert.Contains("JSON", Parsed(lines[2]).GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.Contains("station-lamp", Parsed(lines[3]).GetProperty("error").GetString(), StringComparison.Ordinal);
        JsonElement end = Parsed(lines[4]);
        Assert.Equal(("plain", 4), (end.GetProperty("world").GetString(), end.GetProperty("seed").GetInt64()));
        Assert.True(end.GetProperty("engine").GetProperty("isWhole").GetBoolean());
        Assert.All(lines[..4], line => Assert.DoesNotContain("truth", line, StringComparison.Ordinal));
        Assert.Equal(0.5 + end.GetProperty("card").GetProperty("money").GetDouble(), end.GetProperty("learner").GetProperty("score").GetDouble(), 0.011);

        // What the practice says of the advice's way is what the trial tells of the same yard.
        string told = CliRun.Of("trial", "--world", "plain", "--yard", "0", "--seed", "4").Output;
        Assert.Contains(FormattableString.Invariant($"paid {end.GetProperty("engine").GetProperty("score").GetDouble():F1}, card {end.GetProperty("card").GetProperty("money").GetDouble():F1} "), told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--level", "brutal", "swardloop practice: --level: \"brutal\" is unknown; allowed: easy, usual, hard")]
    [InlineData("--seed", "-1", "swardloop practice: --seed: \"-1\" is not a whole number from 0 to 9223372036854775807; allowed: a whole number from 0 to 9223372036854775807")]
    public void Wrong_options_are_refused_in_one_line(string option, string value, string line) =>
        Assert.Equal(line, CliRun.Of("practice", option, value).RefusedLine());

    private static JsonElement Parsed(string line)
    {
        using JsonDocument document = JsonDocument.Parse(line);
        return document.RootElement.Clone();
    }
}
