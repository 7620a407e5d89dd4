using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class SurveyCommandTests
{
    private static readonly string Example = Repository.At("examples/linnet-croft.survey.json");

    [Fact]
    public void Text_is_the_approved_one() => Approved.Check("survey.txt", CliRun.Of("survey", Example).Output);

    [Fact]
    public void Json_has_the_promised_properties()
    {
        CliRun run = CliRun.Of("survey", Example, "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement root = document.RootElement, oak = root.GetProperty("points").GetProperty("oak");
        Assert.Equal(16.2, oak.GetProperty("x").GetDouble(), tolerance: 0.15);
        Assert.Equal(17.95, oak.GetProperty("y").GetDouble(), tolerance: 0.15);
        Assert.InRange(oak.GetProperty("sdX").GetDouble(), 0.01, 0.2);
        Assert.InRange(oak.GetProperty("sdY").GetDouble(), 0.01, 0.2);
        Assert.InRange(oak.GetProperty("correlation").GetDouble(), -1, 1);
        Assert.Equal(9, root.GetProperty("residualsM").GetArrayLength());
        Assert.Equal(JsonValueKind.Null, root.GetProperty("odd").ValueKind);
        Assert.Equal(3, root.GetProperty("points").EnumerateObject().Count());
    }

    [Fact]
    public void A_slipped_tape_is_named_and_left_out()
    {
        string slipped = File.ReadAllText(Example).Replace("24.21", "25.21", StringComparison.Ordinal);
        using JsonDocument document = JsonDocument.Parse(CliRun.WithInput(slipped, "survey", "-", "--json").Output);
        Assert.Equal(2, document.RootElement.GetProperty("odd").GetInt32());
        Assert.Equal(16.2, document.RootElement.GetProperty("points").GetProperty("oak").GetProperty("x").GetDouble(), tolerance: 0.15);
        Assert.Contains("Tape 3, house-west to oak, disagrees", CliRun.WithInput(slipped, "survey", "-").Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_side_is_refused_in_one_line()
    {
        string line = CliRun.WithInput(File.ReadAllText(Example).Replace(", \"side\": \"left\"", "", StringComparison.Ordinal), "survey", "-").RefusedLine();
        Assert.StartsWith("standard input: tapes: gate, oak, shed may lie on either side", line, StringComparison.Ordinal);
    }
}
