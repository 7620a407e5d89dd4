using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Practice;
using Swardloop.Workshop.Api;
using Swardloop.Worlds;

namespace Swardloop.Trial.Tests.Worlds;

using Scene = Swardloop.Worlds.Scene;

/// <summary>Practice yards are the trial's own: who follows a known way pays what the trial says it costs.</summary>
public sealed class PracticeTests
{
    public static TheoryData<PracticeLevel> Levels => [PracticeLevel.Easy, PracticeLevel.Usual, PracticeLevel.Hard];

    [Theory]
    [MemberData(nameof(Levels))]
    public void A_learner_who_follows_the_printed_card_scores_the_cards_cost(PracticeLevel level)
    {
        for (long seed = 0; seed < 40; seed++)
        {
            Visit card = PrintedCard.Play(PracticeVisit.SceneOf(level, seed));
            PracticeVisit learner = new(level, seed);
            foreach (Visit.Entry entry in card.Log)
            {
                Do(learner, entry.Step);
            }

            Assert.Equal(card.Cost, learner.Money, 1e-9);
            Assert.Equal(card.Log.Select(entry => entry.Seen.ToJsonString()), learner.Turns.Select(turn => turn.Seen.ToJsonString()));
            PracticeEnd end = PracticeEnding.Of(learner, EngineWay.Start(level, seed), german: false);
            Assert.Equal(end.Card.Money, end.Learner.Money);
            Assert.Equal(card.Log.Count, end.Learner.Turns.Count);
            Assert.Equal(learner.IsOver && card.Runs, end.Learner.Cured);
        }
    }

    [Theory]
    [InlineData(PracticeLevel.Easy, 3)]
    [InlineData(PracticeLevel.Easy, 11)]
    [InlineData(PracticeLevel.Usual, 4)]
    [InlineData(PracticeLevel.Usual, 9)]
    [InlineData(PracticeLevel.Hard, 1)]
    [InlineData(PracticeLevel.Hard, 6)]
    public void The_advices_way_played_step_by_step_scores_what_the_trial_says_it_scores(PracticeLevel level, long seed)
    {
        Verdict trial = Judge.Play(Adviser, PracticeVisit.SceneOf(level, seed));
        EngineWay way = EngineWay.Start(level, seed);
        while (!way.IsWhole)
        {
            way = way.Next(CancellationToken.None);
        }

        PracticeWay told = way.Tell(german: true);
        Assert.Equal(Math.Round(trial.Cost, 2), told.Score);
        Assert.Equal(trial.Cured, told.Cured);
        Assert.Equal(trial.Turns.Select(turn => (string?)turn.Step["step"]), told.Turns.Select(turn => (string?)turn.Step["step"]));
        Assert.All(told.Turns, turn => Assert.NotEqual("", turn.Why));
    }

    [Theory]
    [MemberData(nameof(Levels))]
    public void Who_knows_cause_and_place_pays_the_clairvoyants_cost_and_the_mower_runs(PracticeLevel level)
    {
        for (long seed = 0; seed < 200; seed++)
        {
            Scene scene = PracticeVisit.SceneOf(level, seed);
            Visit known = PracticeEnding.Known(scene);
            Assert.Equal(Clairvoyant.Cost(scene), known.Cost, 1e-9);
            Assert.True(known.Runs, $"{level} {seed}: {string.Join('+', scene.Troubles.Select(trouble => trouble.Cause))}");
        }
    }

    [Fact]
    public void Who_gives_up_pays_the_card_on_top()
    {
        PracticeVisit learner = new(PracticeLevel.Usual, 5);
        Do(learner, new JsonObject { ["step"] = "station-lamp", ["by"] = "technician" });
        Assert.Equal(learner.Money + PracticeEnding.CardMoney(learner), PracticeEnding.Score(learner), 1e-9);
        Assert.False(PracticeEnding.Of(learner, EngineWay.Start(PracticeLevel.Usual, 5), false).Learner.Cured);
    }

    [Fact]
    public void The_opening_case_says_neither_world_nor_seed_and_the_engine_reads_it()
    {
        foreach (PracticeLevel level in Enum.GetValues<PracticeLevel>())
        {
            for (long seed = 400_000_000; seed < 400_000_040; seed++)
            {
                PracticeVisit visit = new(level, seed);
                Assert.Equal("Practice yard", visit.CaseFile().Case.Yard.Name);
                string text = visit.Case.ToJsonString();
                Assert.DoesNotContain($"{visit.Scene.World.Name} 0", text, StringComparison.Ordinal);
                Assert.DoesNotContain($"{seed}", text, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public void Hard_yards_come_from_many_worlds_and_the_same_seed_gives_the_same_yard()
    {
        string[] worlds = [.. Enumerable.Range(0, 300).Select(seed => PracticeVisit.SceneOf(PracticeLevel.Hard, seed).World.Name).Distinct()];
        Assert.True(worlds.Length >= 15, string.Join(", ", worlds));
        Assert.DoesNotContain("plain", worlds);
        Assert.Equal(new PracticeVisit(PracticeLevel.Hard, 77).Case.ToJsonString(), new PracticeVisit(PracticeLevel.Hard, 77).Case.ToJsonString());
    }

    [Theory]
    [InlineData("""{"step":"dance"}""", "step")]
    [InlineData("""{"by":"owner"}""", "step")]
    [InlineData("""{"step":"split-resistance"}""", "step.atM")]
    [InlineData("""{"step":"split-resistance","atM":99999}""", "step.atM")]
    [InlineData("""{"step":"split-resistance","atM":"far"}""", "step.atM")]
    [InlineData("""{"step":"mend-span","fromM":5}""", "step.toM")]
    [InlineData("""{"step":"replace-station","by":"owner"}""", "step")]
    [InlineData("""{"step":"insulation","testVolts":250}""", "step")]
    [InlineData("""{"step":"look","fromM":1,"toM":2,"wire":"G9"}""", "step.wire")]
    [InlineData("[]", "step")]
    public void What_cannot_be_done_is_refused_with_its_place_and_costs_nothing(string asked, string place)
    {
        PracticeVisit visit = new(PracticeLevel.Easy, 7);
        using JsonDocument document = JsonDocument.Parse(asked);
        Checked<Step> read = visit.Read(document.RootElement, "step");
        Assert.False(read.IsGood);
        Assert.StartsWith(place, read.Problems[0].Place, StringComparison.Ordinal);
        Assert.Equal(0, visit.Money);
    }

    private static void Do(PracticeVisit learner, JsonObject step)
    {
        using JsonDocument document = JsonDocument.Parse(step.ToJsonString());
        Checked<Step> read = learner.Read(document.RootElement, "step");
        Assert.True(read.IsGood, $"{step.ToJsonString()}: {string.Join(" | ", read.IsGood ? [] : read.Lines())}");
        learner.Do(read.Value);
    }

    private static string Adviser(string caseJson)
    {
        ServiceCase serviceCase = CaseFile.Read(Encoding.UTF8.GetBytes(caseJson), "case", _ => null).Value!.Case;
        return Encoding.UTF8.GetString(AdviceJson.ToUtf8(Advisor.Advise(serviceCase, CausePriors.Default), serviceCase));
    }
}
