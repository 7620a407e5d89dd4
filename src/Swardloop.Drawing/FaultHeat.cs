using Swardloop.Core.Diagnosis;

namespace Swardloop.Drawing;

/// <summary>Probability of the place of a fault in a few weights, drawn as widths of line.</summary>
internal static class FaultHeat
{
    /// <summary>The heaviest weight.</summary>
    public const int MostWeight = 4;

    /// <summary>Stretches worth drawing, each with a weight from 1 to <see cref="MostWeight"/>: by density along the wire compared with the densest,
    /// each weight a third of the next.</summary>
    public static IEnumerable<(WireStretch Stretch, int Weight)> Of(IReadOnlyList<DensityBin> density)
    {
        double densest = density.Select(PerMetre).DefaultIfEmpty(0).Max();
        if (!(densest > 0))
        {
            yield break;
        }

        WireStretch? open = null;
        int weight = 0;
        foreach (DensityBin bin in density)
        {
            int own = Math.Max(0, MostWeight - (int)Math.Floor(Math.Log(densest / Math.Max(PerMetre(bin), 1e-30)) / Math.Log(3)));
            if (open is { } running && own == weight && Math.Abs(running.ToMetres - bin.FromMetres) < 0.01)
            {
                open = running with { ToMetres = bin.ToMetres };
                continue;
            }

            if (open is { } ended && weight > 0)
            {
                yield return (ended, weight);
            }

            (open, weight) = (new(bin.FromMetres, bin.ToMetres), own);
        }

        if (open is { } last && weight > 0)
        {
            yield return (last, weight);
        }
    }

    private static double PerMetre(DensityBin bin) => bin.Probability / Math.Max(bin.ToMetres - bin.FromMetres, 0.1);
}
