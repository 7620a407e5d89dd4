using System.Text;
using System.Text.Json;
using Json.Schema;
using Swardloop.Core.Surveying;
using Swardloop.Model.Checks;
using Swardloop.Model.Surveying;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Surveying;

public sealed class SurveyFileTests
{
    private const string Good = """{"format":"swardloop-survey/1","fixed":{"A":[0,0],"B":[10,0]},"tapes":[{"from":"A","to":"P1","m":12.41},{"from":"B","to":"P1","m":9.07,"sdM":0.03,"side":"left"}]}""";

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs", "schemas", "survey.schema.json")));

    [Fact]
    public void A_tape_without_accuracy_has_two_centimetres_and_two_in_a_thousand()
    {
        SurveyFile file = Read(Good).Value!;
        Assert.Equal(0.02 + (0.002 * 12.41), file.Tapes[0].DeviationMetres, tolerance: 1e-12);
        Assert.Equal((0.03, (TapeSide?)TapeSide.Left), (file.Tapes[1].DeviationMetres, file.Tapes[1].Side));
        Assert.True(IsTaken(Good));
    }

    [Theory]
    [InlineData("\"m\":12.41", "\"m\":-1", "tapes[0].m: got -1")]
    [InlineData("\"m\":12.41", "\"m\":\"12\"", "tapes[0].m: got \"12\"")]
    [InlineData("\"sdM\":0.03", "\"sdM\":0", "tapes[1].sdM: got 0")]
    [InlineData("\"side\":\"left\"", "\"side\":\"north\"", "tapes[1].side: got \"north\"; allowed: left, right")]
    [InlineData("\"A\":[0,0],", "", "fixed: got 1 points")]
    [InlineData("[10,0]", "[10]", "fixed.B: got an array of 1")]
    [InlineData("swardloop-survey/1", "swardloop-survey/2", "format: another version of a survey file")]
    [InlineData("\"to\":\"P1\",\"m\":12.41", "\"to\":\"\",\"m\":12.41", "tapes[0].to: got 0 characters")]
    public void What_schema_and_reader_both_refuse_is_told_with_its_place(string from, string to, string told)
    {
        string text = Good.Replace(from, to, StringComparison.Ordinal);
        Assert.Contains(told, Assert.Single(Read(text).Lines()), StringComparison.Ordinal);
        Assert.False(IsTaken(text));
    }

    [Theory]
    [InlineData("[10,0]", "[0,0.01]", "fixed.B: lies where A lies")]
    [InlineData("\"to\":\"P1\",\"m\":12.41", "\"to\":\"A\",\"m\":12.41", "tapes[0].to: \"A\" is where the tape begins")]
    [InlineData("\"to\":\"P1\",\"m\":9.07", "\"to\":\"P2\",\"m\":9.07", "tapes[1].side: P2 is taped from one point only")]
    public void What_a_schema_cannot_see_is_told_too(string from, string to, string told) =>
        Assert.Contains(told, Assert.Single(Read(Good.Replace(from, to, StringComparison.Ordinal)).Lines()), StringComparison.Ordinal);

    [Theory]
    [InlineData(",\"side\":\"left\"", "", "tapes: P1 may lie on either side")]
    [InlineData("\"m\":9.07", "\"m\":2.405", "tapes: P1 lies in one line")]
    [InlineData("}]}", "},{\"from\":\"P1\",\"to\":\"gaet\",\"m\":3}]}", "tapes: gaet can still be moved without changing any tape; allowed: two tapes or more to each point, from different points, for instance A to gaet")]
    public void Tapes_that_make_no_plan_are_told_in_one_line(string from, string to, string told)
    {
        Checked<SurveyPlan> plan = Read(Good.Replace(from, to, StringComparison.Ordinal)).Value!.Adjust();
        Assert.StartsWith("t.survey.json: " + told, Assert.Single(plan.Lines()), StringComparison.Ordinal);
    }

    [Fact]
    public void The_schema_takes_the_example() =>
        Assert.True(IsTaken(File.ReadAllText(Path.Combine(Examples.Repository, "examples", "linnet-croft.survey.json"))));

    private static bool IsTaken(string text)
    {
        using JsonDocument document = JsonDocument.Parse(text);
        return Schema.Evaluate(document.RootElement).IsValid;
    }

    private static Checked<SurveyFile> Read(string text) => SurveyFile.Read(Encoding.UTF8.GetBytes(text), "t.survey.json");
}
