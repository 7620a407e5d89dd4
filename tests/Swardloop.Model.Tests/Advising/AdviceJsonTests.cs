using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using Json.Schema;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Tests.Yards;
using Swardloop.Model.Words;

namespace Swardloop.Model.Tests.Advising;

public sealed class AdviceJsonTests
{
    private static readonly JsonSchema Schema =
        JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs/schemas/advice.schema.json")));

    private static string Written(Advice advice)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
        {
            AdviceJson.Write(advice, SampleAdvice.Case, json);
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static JsonNode Node(Advice advice) => JsonNode.Parse(Written(advice))!;

    private static void MeetsSchema(Advice advice)
    {
        using JsonDocument document = JsonDocument.Parse(Written(advice));
        Assert.True(Schema.Evaluate(document.RootElement).IsValid, Written(advice));
    }

    [Fact]
    public void The_object_is_the_contracts()
    {
        JsonNode json = Node(SampleAdvice.Advice);

        Assert.Equal(
            ["format", "causes", "excessOhms", "location", "density", "evidence", "next", "disagreement", "finished"],
            json.AsObject().Select(property => property.Key));
        Assert.Equal(("series-resistance+leak", 0.04), ((string)json["causes"]![1]!["cause"]!, (double)json["causes"]![1]!["probability"]!));
        Assert.Equal("""{"low":329.235,"median":332.988,"high":339}""", json["excessOhms"]!.ToJsonString());
        Assert.Equal(
            """{"cause":"series-resistance","atM":84.5,"lowM":83.97,"highM":85.2,"credibility":0.9,"words":"joint 2, 0.5 m south of the north-east corner"}""",
            json["location"]!.ToJsonString());
        Assert.Equal("""{"observation":2,"bits":{"series-resistance":5.6543,"open":0.2,"layout":-5.25}}""", json["evidence"]![2]!.ToJsonString());
        JsonObject next = json["next"]![0]!.AsObject();
        Assert.Equal(
            ["step", "atM", "by", "minutes", "costNow", "expectedCostToFinish", "words", "why", "how", "cautions"],
            next.Select(property => property.Key));
        Assert.Equal(71.2, (double)next["expectedCostToFinish"]!);
        Assert.Equal("look", (string)json["next"]![2]!["step"]!);
        Assert.Equal((95, 105, "owner"), ((double)json["next"]![2]!["fromM"]!, (double)json["next"]![2]!["toM"]!, (string)json["next"]![2]!["by"]!));
        Assert.Null(json["disagreement"]);
        Assert.False((bool)json["finished"]!);
    }

    [Fact]
    public void What_is_written_meets_the_schema()
    {
        MeetsSchema(SampleAdvice.Advice);
        MeetsSchema(SampleAdvice.Advice with { ExcessOhms = null, Location = null, Density = [], Evidence = [], Next = [], Finished = true });
        MeetsSchema(SampleAdvice.Advice with { Disagreement = new(1, new Step(StepKind.ToneTrace) { AtMetres = 3, From = WireEnd.B }) });
        MeetsSchema(SampleAdvice.Advice with
        {
            Next =
            [
                .. Enum.GetValues<StepKind>().Select(kind => new AdvisedStep(
                    new Step(kind) { AtMetres = 1, FromMetres = 2, ToMetres = 3, From = WireEnd.A, Place = StartPlace.MidLawn, NearMetal = true, TestVolts = 250 },
                    1, 2, 3, new(0, [], null, null, 0))),
            ],
        });
    }

    [Fact]
    public void Written_probabilities_add_up_to_one_and_keep_their_order() =>
        Gen.Double[0, 12].Array[1, 90].Sample(exponents =>
        {
            double[] weights = [.. exponents.Select(exponent => Math.Pow(10, -exponent)).OrderDescending()];
            double sum = weights.Sum();
            Advice advice = SampleAdvice.Advice with { Causes = [.. weights.Select(weight => new CauseProbability(new Cause(CauseKind.Open), weight / sum))] };
            double[] written = [.. Node(advice)["causes"]!.AsArray().Select(cause => (double)cause!["probability"]!)];

            // 5e-10 per cause, as AdviceJson says; 90 causes: 4.5e-8.
            return Math.Abs(written.Sum() - 1) <= weights.Length * 5.1e-10
                && written.SequenceEqual(written.OrderDescending()) && written.All(probability => probability > 0);
        }, iter: 500);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_number_that_is_none_is_never_written(double value) =>
        Assert.Throws<ArgumentException>(() => Written(SampleAdvice.Advice with { ExcessOhms = new(1, value, 3) }));

    [Fact]
    public void Words_are_never_more_certain_than_the_numbers() =>
        Gen.Double[0, 1].Sample(probability =>
        {
            string percent = Phrasebook.English.Percent(probability);
            return (percent != "100 %" || probability == 1) && (percent != "0 %" || probability == 0);
        });
}
