using Swardloop.Core.Diagnosis;
using Swardloop.Model.Words;

namespace Swardloop.Model.Advising;

/// <summary>Weights of evidence in words: what an observation, or the complaint, spoke for most and against most.</summary>
public static class EvidenceWords
{
    /// <summary>Weights of evidence below this say little (bits): odds moved by less than a factor 1.4. Common practice, no source.</summary>
    private const double LittleBits = 0.5;

    /// <summary>Weights from here on are strong (bits): odds moved tenfold.</summary>
    private const double StrongBits = 3.3;

    /// <summary>The weights worth saying, of single causes that have a name to act upon: none, one or two.</summary>
    public static IReadOnlyList<CauseBits> Telling(IReadOnlyList<CauseBits> weights)
    {
        List<CauseBits> named = [.. weights.Where(bits =>
            bits.Cause.Second is null && !bits.Cause.Includes(CauseKind.Unmodelled) && !bits.Cause.Includes(CauseKind.None))];
        return [.. new[] { named.MaxBy(bits => bits.Bits), named.MinBy(bits => bits.Bits) }
            .OfType<CauseBits>().Distinct().Where(bits => Math.Abs(bits.Bits) >= LittleBits)];
    }

    /// <summary>One weight in words.</summary>
    public static string Of(CauseBits bits, Phrasebook words)
    {
        Phrase how = (bits.Bits > 0, Math.Abs(bits.Bits) >= StrongBits) switch
        {
            (true, true) => Phrase.TellsStronglyFor,
            (true, false) => Phrase.TellsFor,
            (false, true) => Phrase.TellsStronglyAgainst,
            _ => Phrase.TellsAgainst,
        };
        string size = words.Number(Math.Abs(bits.Bits));
        return words.Say(size == "1" ? Phrase.TellingOneBit : Phrase.Telling, words[how], words.Name(bits.Cause), size);
    }
}
