using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Owners;

namespace Swardloop.Workshop.Tests.Owners;

public class OwnerQuestionsTests
{
    private static readonly DateTimeOffset Noon = new(2026, 5, 14, 12, 0, 0, TimeSpan.FromHours(2));

    [Fact]
    public void New_case_asks_the_owner_something()
    {
        Step? next = OwnerQuestions.Next(Advise(), [], [], []);

        Assert.NotNull(next);
        Assert.Equal(Person.Owner, next.By);
        Assert.True(StepCatalogue.Of(next.Kind).OwnerMay);
    }

    [Fact]
    public void What_the_owner_cannot_do_is_not_asked_again()
    {
        Advice advice = Advise();
        List<StepKind> cannot = [];
        while (OwnerQuestions.Next(advice, [], cannot, []) is { } step)
        {
            Assert.DoesNotContain(step.Kind, cannot);
            cannot.Add(step.Kind);
        }

        Assert.NotEmpty(cannot);
    }

    [Fact]
    public void What_the_workshop_wants_comes_first_and_once()
    {
        Advice advice = Advise();

        Assert.Equal(StepKind.LoopResistance, OwnerQuestions.Next(advice, [StepKind.LoopResistance], [], [])!.Kind);
        Assert.NotEqual(StepKind.EarthRatio, OwnerQuestions.Next(advice, [StepKind.EarthRatio], [], [])?.Kind);
        Assert.NotEqual(
            StepKind.FollowWire, OwnerQuestions.Next(advice, [StepKind.FollowWire], [], [StepKind.FollowWire])?.Kind);
    }

    [Fact]
    public void Loop_reading_becomes_an_observation_by_the_owner()
    {
        ProblemList problems = new("answer");
        Dictionary<string, string> given = new() { ["ohms"] = "5,6 Ohm", ["leadOhms"] = "0,3" };

        JsonObject? reading = OwnerQuestions.Answer(
            new(StepKind.LoopResistance) { By = Person.Owner }, given.GetValueOrDefault, Noon, SquareYard(), problems);

        Assert.False(problems.Any);
        JsonObject expected = JsonNode.Parse(
            """{"test":"loop-resistance","leadOhms":0.3,"ohms":5.6,"by":"owner","at":"2026-05-14T12:00:00+02:00"}""")!.AsObject();
        Assert.True(JsonNode.DeepEquals(expected, reading), reading?.ToJsonString());
    }

    [Fact]
    public void Over_range_is_an_answer()
    {
        ProblemList problems = new("answer");

        JsonObject? reading = OwnerQuestions.Answer(
            new(StepKind.LoopResistance) { By = Person.Owner }, name => name == "ohms" ? "over-range" : null, Noon, SquareYard(), problems);

        Assert.Equal("over-range", (string?)reading!["ohms"]);
    }

    [Fact]
    public void Every_fault_of_an_answer_is_said_at_its_field()
    {
        ProblemList problems = new("answer");
        Dictionary<string, string> given = new() { ["distanceM"] = "far", ["bound"] = "maybe" };

        Assert.Null(OwnerQuestions.Answer(new(StepKind.MowerReach) { By = Person.Owner }, given.GetValueOrDefault, Noon, SquareYard(), problems));

        Assert.Equal(["distanceM", "bound"], problems.Kept.Select(problem => problem.Place));
    }

    [Fact]
    public void Every_question_that_an_owner_may_get_can_be_answered()
    {
        foreach (StepFacts facts in StepCatalogue.All.Where(facts => facts.OwnerMay))
        {
            Step step = new(facts.Kind) { By = Person.Owner, FromMetres = 3, ToMetres = 5, Place = StartPlace.MidLawn };
            ProblemList problems = new("answer");

            JsonObject? reading = OwnerQuestions.Answer(
                step, name => OwnerQuestions.Asked(step).FirstOrDefault(field => field.Name == name) switch
                {
                    null => null,
                    { Words.Count: > 0 } field => field.Words[0],
                    { Type: Model.Steps.StepFieldType.Flag } => "yes",
                    _ => "2",
                }, Noon, SquareYard(), problems);

            Assert.True(reading is not null, $"{facts.Kind}: {string.Join(" | ", problems.Kept)}");
        }
    }

    [Theory]
    [InlineData("1.2", "kΩ", 1200)]
    [InlineData("1.2", null, 1.2)]
    [InlineData("0,9", "MΩ", 900_000)]
    [InlineData("57 Ohm", "kΩ", 57)]
    public void Unit_chosen_beside_the_number_counts_unless_another_is_typed(string typed, string? unit, double expected)
    {
        JsonObject? reading = Loop(new() { ["ohms"] = typed, ["ohms-unit"] = unit, ["ohms-sure"] = "yes" }, out _);

        Assert.Equal(expected, (double)reading!["ohms"]!, tolerance: 1e-9 * expected);
    }

    [Theory]
    [InlineData("", "yes")]
    [InlineData("1", "yes")]
    [InlineData("OL", null)]
    public void Over_range_may_be_ticked_or_typed(string typed, string? ticked) =>
        Assert.Equal("over-range", (string?)Loop(new() { ["ohms"] = typed, ["ohms-over"] = ticked }, out _)!["ohms"]);

    [Theory]
    [InlineData("1", null, null, OwnerQuestions.LoneOne)]
    [InlineData("57", "yes", null, OwnerQuestions.NumberAndOverRange)]
    [InlineData("0.3", null, "57", OwnerQuestions.LessThanLeads)]
    public void Number_that_a_meter_would_not_show_so_is_asked_again(string typed, string? ticked, string? leads, string message)
    {
        Assert.Null(Loop(new() { ["ohms"] = typed, ["ohms-over"] = ticked, ["leadOhms"] = leads }, out ProblemList problems));

        Problem problem = Assert.Single(problems.Kept);
        Assert.Equal("ohms", problem.Place);
        Assert.Equal(message, problem.Message);
    }

    [Fact]
    public void Guide_wire_is_asked_for_with_both_numbers_and_its_name()
    {
        Step step = new(StepKind.GuideResistance) { By = Person.Owner, Guide = "G1" };
        Assert.Equal(["leadOhms", "ohmsA", "ohmsB"], OwnerQuestions.Asked(step).Select(field => field.Name));

        ProblemList problems = new("answer");
        JsonObject? reading = OwnerQuestions.Answer(
            step, name => name switch { "leadOhms" => "0,3", "ohmsA" => "2,4", "ohmsB-over" => "yes", _ => null }, Noon, SquareYard(), problems);

        JsonObject expected = JsonNode.Parse(
            """{"test":"guide-resistance","guide":"G1","leadOhms":0.3,"ohmsA":2.4,"ohmsB":"over-range","by":"owner","at":"2026-05-14T12:00:00+02:00"}""")!.AsObject();
        Assert.True(JsonNode.DeepEquals(expected, reading), $"{reading?.ToJsonString()} {string.Join(" | ", problems.Kept)}");
    }

    [Theory]
    [InlineData(StepKind.TerminalLook, "value", "corroded")]
    [InlineData(StepKind.ChargeCheck, "value", "does-not")]
    public void Question_with_words_to_choose_from_takes_each(StepKind kind, string field, string word)
    {
        Step step = new(kind) { By = Person.Owner };
        Assert.Equal([field], OwnerQuestions.Asked(step).Select(asked => asked.Name));
        Assert.Equal(word, (string?)OwnerQuestions.Answer(step, name => name == field ? word : null, Noon, SquareYard(), new("answer"))![field]);
    }

    [Fact]
    public void Swapping_the_ends_needs_no_answer_but_that_it_is_done()
    {
        Step step = new(StepKind.SwapEnds) { By = Person.Owner };
        Assert.Empty(OwnerQuestions.Asked(step));
        Assert.Equal("swap-ends", (string?)OwnerQuestions.Answer(step, _ => null, Noon, SquareYard(), new("answer"))!["repair"]);
    }

    [Fact]
    public void Shorted_loop_may_read_a_little_less_than_the_leads() => Assert.NotNull(Loop(new() { ["ohms"] = "0.2", ["leadOhms"] = "0.4" }, out _));

    private static JsonObject? Loop(Dictionary<string, string?> given, out ProblemList problems) => OwnerQuestions.Answer(
        new(StepKind.LoopResistance) { By = Person.Owner }, given.GetValueOrDefault, Noon, SquareYard(), problems = new("answer"));

    [Fact]
    public void No_owner_is_asked_more_than_six_questions()
    {
        StepKind[] six = [StepKind.OutletCheck, StepKind.StationLamp, StepKind.MowerStart, StepKind.LoopResistance, StepKind.Look, StepKind.MowerReach];

        Assert.Equal(OwnerQuestions.MostQuestions, six.Length);
        Assert.Null(OwnerQuestions.Next(Advise(), [], [], six));
    }

    [Fact]
    public void Without_the_tool_nothing_that_needs_it_is_asked_and_without_a_start_nothing_that_rides()
    {
        Assert.Contains(StepKind.LoopResistance, OwnerQuestions.AlsoHindered(StepKind.LoopResistance, OwnerHindrance.NoTool));
        Assert.DoesNotContain(StepKind.StationLamp, OwnerQuestions.AlsoHindered(StepKind.LoopResistance, OwnerHindrance.NoTool));
        Assert.Contains(StepKind.MowerReach, OwnerQuestions.AlsoHindered(StepKind.MowerStart, OwnerHindrance.DoesNotStart));
        Assert.Empty(OwnerQuestions.AlsoHindered(StepKind.Look, OwnerHindrance.DoesNotDare));
    }

    [Fact]
    public void What_can_hardly_be_is_asked_about_and_taken_when_the_owner_is_sure()
    {
        Dictionary<string, string?> given = new() { ["ohms"] = "2,8 MΩ" };
        Assert.Null(Loop(given, out ProblemList problems));
        Assert.Equal(OwnerQuestions.Doubtful, Assert.Single(problems.Kept).Message);

        given["ohms" + OwnerQuestions.SureSuffix] = "yes";
        Assert.Equal(2.8e6, (double)Loop(given, out _)!["ohms"]!);
    }

    private static Yard SquareYard() => YardFile.Read(
        """
        { "format": "swardloop-yard/1", "name": "Square", "loop": {
          "path": [[10,0],[20,0],[20,20],[0,20],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }
        """u8.ToArray(), "square").Value!.Yard;

    private static Advice Advise()
    {
        Yard yard = SquareYard();
        Checked<CaseFile> read = CaseFile.Read(CaseFile.Create(new ServiceCase { Yard = yard }, YardFile.Create(yard)).ToUtf8(), "case", _ => null);
        return Advisor.Advise(read.Value!.Case, CausePriors.Default);
    }
}
