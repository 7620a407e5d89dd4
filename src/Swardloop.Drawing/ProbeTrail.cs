using Swardloop.Core.Diagnosis;

namespace Swardloop.Drawing;

/// <summary>What each probe along the wire ruled out: the belief of the fault's place before it, beside that after it.</summary>
public static class ProbeTrail
{
    /// <summary>A place is ruled out where a probe fits it this much worse than the place it fits best. Common practice, no source.</summary>
    public const double LeftShare = 0.2;

    // Places this unlikely before the probe are not its doing; stretches this short are no news.
    private const double LeastMassBefore = 0.004, LeastMetres = 0.3;
    private const int Samples = 1200;

    /// <summary>The probes of a case, in their order.</summary>
    /// <param name="serviceCase">The case.</param>
    /// <param name="priors">How often each cause is met.</param>
    /// <param name="cancellation">Ends the work between probes.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static IReadOnlyList<WireProbe> Of(ServiceCase serviceCase, CausePriors priors, CancellationToken cancellation = default)
    {
        List<WireProbe> probes = [];
        (int Count, IReadOnlyList<DensityBin> Density)? last = null;
        for (int i = 0; i < serviceCase.Observations.Count; i++)
        {
            Observation seen = serviceCase.Observations[i];
            if (!WireProbe.TellsPlaces(seen))
            {
                continue;
            }

            cancellation.ThrowIfCancellationRequested();
            IReadOnlyList<DensityBin> before = last is { } known && known.Count == i ? known.Density : After(i);
            IReadOnlyList<DensityBin> after = After(i + 1);
            last = (i + 1, after);
            probes.Add(new(i, WireProbe.PlaceOf(seen), RuledOut(before, after, serviceCase.Yard.Loop.LengthMetres)));
        }

        return probes;

        IReadOnlyList<DensityBin> After(int count) =>
            Advisor.PlaceDensity(serviceCase with { Observations = [.. serviceCase.Observations.Take(count)] }, priors);
    }

    /// <summary>Stretches that lost most of their probability.</summary>
    /// <param name="before">Probability before; empty: no wire fault was believed.</param>
    /// <param name="after">Probability after; empty: none is believed any more, which rules out no place more than another.</param>
    /// <param name="lengthMetres">Length of the wire (m).</param>
    public static IReadOnlyList<WireStretch> RuledOut(IReadOnlyList<DensityBin> before, IReadOnlyList<DensityBin> after, double lengthMetres)
    {
        if (before.Count == 0 || after.Count == 0)
        {
            return [];
        }

        double step = lengthMetres / Samples;
        double[] was = PerSample(before, step), left = PerSample(after, step);
        double best = Enumerable.Range(0, Samples).Max(i => was[i] > 1e-9 ? left[i] / was[i] : 0);
        List<WireStretch> stretches = [];
        int? start = null;
        for (int i = 0; i <= Samples; i++)
        {
            bool gone = i < Samples && left[i] < LeftShare * best * was[i];
            if (gone)
            {
                start ??= i;
            }
            else if (start is { } first)
            {
                if ((i - first) * step >= LeastMetres && was.AsSpan(first, i - first).ToArray().Sum() >= LeastMassBefore)
                {
                    stretches.Add(new(first * step, i * step));
                }

                start = null;
            }
        }

        return stretches;
    }

    private static double[] PerSample(IReadOnlyList<DensityBin> density, double step)
    {
        double[] mass = new double[Samples];
        foreach (DensityBin bin in density)
        {
            double length = Math.Max(bin.ToMetres - bin.FromMetres, 1e-9);
            int first = Math.Clamp((int)(bin.FromMetres / step), 0, Samples - 1), last = Math.Clamp((int)Math.Ceiling(bin.ToMetres / step) - 1, first, Samples - 1);
            for (int i = first; i <= last; i++)
            {
                double overlap = Math.Min(bin.ToMetres, (i + 1) * step) - Math.Max(bin.FromMetres, i * step);
                mass[i] += bin.Probability * Math.Clamp(overlap / length, 0, 1);
            }
        }

        return mass;
    }
}
