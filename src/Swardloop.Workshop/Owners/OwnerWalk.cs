using System.Globalization;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Workshop.Owners;

/// <summary>The one walk that an owner is asked for: every stretch of the wire that is worth a look on the same way round, each answered by itself.</summary>
public static class OwnerWalk
{
    /// <summary>Most stretches of one walk.</summary>
    public const int MostStretches = 3;

    // Worth the few steps more: the chance that the fault is there, and how much likelier its metres are than the wire's mean metre. Longer stretches
    // are walks of their own. Common practice, no source.
    private const double LeastChance = 0.05, TimesMean = 3, LongestMetres = 12;

    // This near an end (m) it is the terminals that are likely, and they have a look of their own.
    private const double TerminalMetres = 1;

    // What is seen of a fault lies about it, and a place in words is no better than this (m).
    private const double MarginMetres = 0.4;

    /// <summary>The stretches to look at (m from A), in the order of the walk from the station: the one advised, and what is likely besides and was not looked at.</summary>
    /// <param name="look">The look that is advised.</param>
    /// <param name="density">Where the fault may be.</param>
    /// <param name="serviceCase">The case.</param>
    public static IReadOnlyList<(double FromMetres, double ToMetres)> Stretches(Step look, IReadOnlyList<DensityBin> density, ServiceCase serviceCase)
    {
        if (look is not { Kind: StepKind.Look, Wire: null, FromMetres: { } from, ToMetres: { } to })
        {
            return [];
        }

        double length = serviceCase.Yard.Loop.LengthMetres;
        List<(double FromMetres, double ToMetres)> taken = [(from, to)], seen = [.. serviceCase.Observations.OfType<Observation.Look>().Where(each => each.Wire is null).Select(each => (each.FromMetres, each.ToMetres))];
        foreach ((double start, double end, double chance) in Peaks(density, length).OrderByDescending(peak => peak.Chance))
        {
            (double FromMetres, double ToMetres) stretch = (Math.Max(0, Math.Round(start - MarginMetres, 1)), Math.Min(Math.Round(length, 2), Math.Round(end + MarginMetres, 1)));
            if (taken.Count < MostStretches && chance >= LeastChance && end - start <= LongestMetres && start >= TerminalMetres && end <= length - TerminalMetres
                && stretch.ToMetres > stretch.FromMetres
                && !taken.Concat(seen).Any(other => other.FromMetres < stretch.ToMetres && other.ToMetres > stretch.FromMetres))
            {
                taken.Add(stretch);
            }
        }

        return [.. taken.Order()];
    }

    /// <summary>What follows a field's name for a stretch: nothing for the first, then -2, -3.</summary>
    /// <param name="index">Of the stretch, from 0.</param>
    public static string Suffix(int index) => index == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"-{index + 1}");

    /// <summary>The id under which the answer to a stretch is kept: the sending's own for the first, and from it the same again for each other.</summary>
    /// <param name="once">The sending.</param>
    /// <param name="index">Of the stretch, from 0.</param>
    public static Guid IdOf(Guid once, int index)
    {
        byte[] bytes = once.ToByteArray(bigEndian: true);
        bytes[^1] ^= (byte)index;
        return new(bytes, bigEndian: true);
    }

    /// <summary>Neighbouring bins that are likely for their length.</summary>
    private static IEnumerable<(double From, double To, double Chance)> Peaks(IReadOnlyList<DensityBin> density, double length)
    {
        (double From, double To, double Chance)? peak = null;
        foreach (DensityBin bin in density)
        {
            if (bin.Probability * length >= TimesMean * (bin.ToMetres - bin.FromMetres))
            {
                peak = peak is { } grown ? (grown.From, bin.ToMetres, grown.Chance + bin.Probability) : (bin.FromMetres, bin.ToMetres, bin.Probability);
            }
            else if (peak is { } done)
            {
                yield return done;
                peak = null;
            }
        }

        if (peak is { } last)
        {
            yield return last;
        }
    }
}
