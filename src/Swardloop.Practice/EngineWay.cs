using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Words;
using Swardloop.Workshop.Api;
using Swardloop.Worlds;

namespace Swardloop.Practice;

/// <summary>How the advice would have gone about a practice yard: the trial's own dialogue, one step at a time, so that a long one can be watched and
/// stopped. The workshop's own counts are left out, as in the trial.</summary>
/// <param name="level">How hard the yard is.</param>
/// <param name="seed">What it is made from.</param>
/// <param name="steps">The steps so far.</param>
/// <param name="isWhole">Whether there is no further one.</param>
/// <param name="finished">Whether the advice said that all is done.</param>
public sealed class EngineWay(PracticeLevel level, long seed, IReadOnlyList<EngineStep> steps, bool isWhole, bool finished)
{
    /// <summary>The steps so far.</summary>
    public IReadOnlyList<EngineStep> Steps => steps;

    /// <summary>Whether there is no further one.</summary>
    public bool IsWhole => isWhole;

    /// <summary>Whether the advice said that all is done.</summary>
    public bool Finished => finished;

    /// <summary>A way that is not begun.</summary>
    public static EngineWay Start(PracticeLevel level, long seed) => new(level, seed, [], false, false);

    /// <summary>The way with one step more, or whole.</summary>
    /// <param name="cancellation">Stops the computing.</param>
    public EngineWay Next(CancellationToken cancellation)
    {
        if (isWhole)
        {
            return this;
        }

        CaseFile file = PracticeVisit.CaseOf(Played());
        Advice advice = Advisor.Advise(file.Case, CausePriors.Default, cancellation);

        // As text, rounded: the trial meets the advice so, and its score must be this one's.
        JsonObject said = (JsonObject)JsonNode.Parse(Encoding.UTF8.GetString(AdviceJson.ToUtf8(advice, file.Case)))!;
        if (advice.Finished || steps.Count == Judge.MostSteps || said["next"] is not JsonArray { Count: > 0 } next)
        {
            return new(level, seed, steps, true, advice.Finished);
        }

        JsonObject step = new(((JsonObject)next[0]!).Where(part => part.Key is not ("minutes" or "costNow" or "expectedCostToFinish" or "words" or "why" or "how" or "cautions"))
            .Select(part => KeyValuePair.Create(part.Key, part.Value?.DeepClone())));
        StepReason reason = advice.Next[0].Reason;
        string currency = file.Case.Rates.Currency;
        return new(level, seed, [.. steps, new(step, WhyWords.Say(reason, currency, Phrasebook.English), WhyWords.Say(reason, currency, Phrasebook.German))], false, false);
    }

    /// <summary>The way as it is told.</summary>
    /// <param name="german">Whether its reasons are told in German.</param>
    public PracticeWay Tell(bool german)
    {
        Visit visit = Played();
        return PracticeEnding.Way(visit, finished && visit.Runs, isWhole, PrintedCard.Play(visit.Scene).Cost, i => german ? steps[i].WhyGerman : steps[i].WhyEnglish);
    }

    private Visit Played()
    {
        Visit visit = PracticeVisit.Open(PracticeVisit.SceneOf(level, seed));
        foreach (EngineStep step in steps)
        {
            visit.Do((JsonObject)step.Step.DeepClone());
        }

        return visit;
    }
}

/// <summary>One step of the advice.</summary>
/// <param name="Step">Step, person and parameters.</param>
/// <param name="WhyEnglish">Why, in English.</param>
/// <param name="WhyGerman">Why, in German.</param>
public sealed record EngineStep(JsonObject Step, string WhyEnglish, string WhyGerman);
