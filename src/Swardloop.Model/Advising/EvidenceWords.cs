using Swardloop.Core.Diagnosis;
using Swardloop.Model.Words;

namespace Swardloop.Model.Advising;

/// <summary>Weights of evidence in words: what an observation, or the complaint, spoke for most and against most.</summary>
public static class EvidenceWords
{
    /// <summary>Weights of evidence below this say little (bits): odds moved by less than a factor 1.4. Common practice, no source.</summary>
    private const double LittleBits = 0.5;

    /// <summary>The largest factor that is said: a stated probability is not known to more than this. Common practice, no source.</summary>
    private const double LargestFactor = 1000;

    /// <summary>The weights worth saying, of single causes that have a name to act upon: none, one or two.</summary>
    public static IReadOnlyList<CauseBits> Telling(IReadOnlyList<CauseBits> weights)
    {
        List<CauseBits> named = [.. weights.Where(bits =>
            bits.Cause.Second is null && !bits.Cause.Includes(CauseKind.Unmodelled) && !bits.Cause.Includes(CauseKind.None))];
        return [.. new[] { named.MaxBy(bits => bits.Bits), named.MinBy(bits => bits.Bits) }
            .OfType<CauseBits>().Distinct().Where(bits => Math.Abs(bits.Bits) >= LittleBits)];
    }

    /// <summary>One weight in words: the factor by which it moved the odds of its cause.</summary>
    public static string Of(CauseBits bits, Phrasebook words)
    {
        double factor = Math.Pow(2, Math.Abs(bits.Bits));
        string times = factor switch
        {
            > LargestFactor => words.Say(Phrase.MoreThan, words.Number(LargestFactor, 0)),
            >= 100 => words.Number(10 * Math.Round(factor / 10), 0),
            >= 5 => words.Number(factor, 0),
            _ => words.Number(factor, 1),
        };
        return words.Say(bits.Bits > 0 ? Phrase.TimesAsLikely : Phrase.TimesLessLikely, words.Name(bits.Cause), times);
    }
}
