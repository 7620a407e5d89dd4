using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Words;

/// <summary>Why a step is advised, in one sentence: what it ends, tells apart, narrows and saves.</summary>
public static class WhyWords
{
    /// <summary>Savings below this (money) are not worth a word: they are within the noise of any estimate.</summary>
    private const double LeastSaving = 0.5;

    /// <summary>The sentence.</summary>
    /// <param name="reason">The facts.</param>
    /// <param name="currency">What money is counted in.</param>
    /// <param name="words">Wording; English when null.</param>
    public static string Say(StepReason reason, string currency, Phrasebook? words = null)
    {
        words ??= Phrasebook.English;
        List<string> clauses = reason.AsksAgain is { } again ? [words[again == AskedAgain.DoesNotFit ? Phrase.WhyAsksAgain : Phrase.WhyLooksAgain]] : [];
        if (reason.CureProbability > 0)
        {
            clauses.Add(words.Say(Phrase.WhyCures, words.Percent(reason.CureProbability)));
        }

        if (reason.TellsApart.Count > 0)
        {
            string causes = reason.TellsApart.Select(words.Name)
                .Take(3).Aggregate((all, next) => words.Say(Phrase.Or, all, next));
            clauses.Add(words.Say(reason.TellsApart.Count == 1 ? Phrase.WhyTellsWhether : Phrase.WhyTellsApart, causes));
        }

        // Written so that NaN stays silent.
        if (reason.PlaceNarrowsFromMetres is { } from && reason.PlaceNarrowsToMetres is { } to && from - to >= 0.1 && to >= 0)
        {
            clauses.Add(words.Say(Phrase.WhyNarrows, words.Length(from), words.Length(to)));
        }

        if (reason.SavesMoney >= LeastSaving)
        {
            clauses.Add(words.Say(Phrase.WhySaves, words.AboutMoney(reason.SavesMoney, currency)));
        }

        string sentence = clauses.Count > 0
            ? clauses.Aggregate((all, next) => words.Say(Phrase.ClauseAnd, all, next))
            : words[Phrase.WhyBestWayOn];
        return char.ToUpperInvariant(sentence[0]) + sentence[1..] + ".";
    }
}
