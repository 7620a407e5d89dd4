using System.Text;
using System.Text.Json.Nodes;
using Json.Schema;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Tests.Yards;

namespace Swardloop.Model.Tests.Cases;

/// <summary>What steps take in one workshop: read, written, refused, and reckoned with.</summary>
public sealed class StepPaceTests
{
    private static string With(string steps) => $$"""
        { "format": "swardloop-case/1", "yard": "{{Path.Combine(Examples.Repository, "examples", "marram-reach.yard.json")}}",
          "rates": { "labourPerHour": 60, "steps": {{steps}} }, "onSite": true, "observations": [] }
        """;

    private static Checked<CaseFile> Read(string text) => CaseFile.Read(Encoding.UTF8.GetBytes(text), "case", File.ReadAllBytes);

    [Fact]
    public void A_workshops_own_minutes_and_parts_stand_for_the_catalogues()
    {
        ServiceCase mine = Read(With("""{ "split-resistance": { "jointMinutes": 30, "jointParts": 5 }, "mend-span": { "minutesPerM": 6, "parts": 7 } }""")).Value!.Case;
        StepCosts costs = new(mine), usual = new(mine with { Rates = mine.Rates with { Pace = StepPace.Default } });

        // A joint of the example lies at 121 m. Minutes at 60 an hour are money one to one.
        Step joint = new(StepKind.SplitResistance) { AtMetres = 121 }, elsewhere = new(StepKind.SplitResistance) { AtMetres = 100 };
        Assert.Equal((30, 35), (costs.Minutes(joint), costs.Money(joint)));
        Assert.Equal(usual.Money(elsewhere), costs.Money(elsewhere));
        Step mend = new(StepKind.MendSpan) { FromMetres = 100, ToMetres = 102 };
        Assert.Equal(usual.Money(mend) + (2 * 2) + 3, costs.Money(mend), 1e-9);
        Assert.Equal(usual.Money(new(StepKind.Wiggle)), costs.Money(new(StepKind.Wiggle)));
    }

    [Fact]
    public void Advice_reckons_with_it()
    {
        byte[] example = File.ReadAllBytes(Path.Combine(Examples.Repository, "examples", "marram-reach.case.json"));
        ServiceCase usual = CaseFile.Read(example, "case", path => File.ReadAllBytes(Path.Combine(Examples.Repository, "examples", path))).Value!.Case;
        AdvisedStep first = Advisor.Advise(usual, CausePriors.Default, TestContext.Current.CancellationToken).Next[0];
        ServiceCase slow = usual with { Rates = usual.Rates with { Pace = StepPace.With(new StepEffort(first.Step.Kind) { Minutes = 900, JointMinutes = StepCatalogue.Of(first.Step.Kind).JointMinutes is null ? null : 900 }) } };

        Assert.NotEqual(first.Step.Kind, Advisor.Advise(slow, CausePriors.Default, TestContext.Current.CancellationToken).Next[0].Step.Kind);
    }

    [Theory]
    [InlineData("""{ "dowse": { "minutes": 3 } }""", "case: rates.steps.dowse: is no step; allowed: outlet-check")]
    [InlineData("""{ "station-lamp": { "minutesPerM": 3 } }""", "case: rates.steps.station-lamp.minutesPerM: this step has no such number; allowed: minutes, parts")]
    [InlineData("""{ "station-lamp": { "minutes": -1 } }""", "case: rates.steps.station-lamp.minutes: got -1; allowed: a number from 0 to 1")]
    [InlineData("3", "case: rates.steps: got 3; allowed: an object")]
    public void What_is_wrong_is_named(string steps, string expected) => Assert.StartsWith(expected, Read(With(steps)).Lines().Single(), StringComparison.Ordinal);

    [Fact]
    public void A_pace_comes_back_as_written_and_a_case_without_one_stays_without()
    {
        StepPace pace = StepPace.With([new(StepKind.MendSpan) { Minutes = 12, MinutesPerMetre = 5 }, new(StepKind.Wiggle) { Parts = 1 }, new(StepKind.Look)]);
        CaseFile plain = Read(With("null")).Value!;
        CaseFile changed = plain.With(plain.Case with { Rates = plain.Case.Rates with { Pace = pace } });

        Assert.Equal(2, pace.Own.Count);
        Assert.Equal(pace, Read(Encoding.UTF8.GetString(changed.ToUtf8())).Value!.Case.Rates.Pace);
        Assert.Null(JsonNode.Parse(plain.With(plain.Case with { OnSite = false }).ToUtf8())!["rates"]!["steps"]);
        Assert.True(JsonSchema.FromText(File.ReadAllText(Path.Combine(Examples.Repository, "docs/schemas/case.schema.json")), new BuildOptions { SchemaRegistry = new() })
            .Evaluate(System.Text.Json.JsonDocument.Parse(changed.ToUtf8()).RootElement).IsValid);
    }
}
