namespace Swardloop.Core.Diagnosis;

/// <summary>Sizes a fault may have: bins of resistance, log-spaced, with their prior probabilities; the last may be infinite.</summary>
internal sealed class SizeGrid
{
    private SizeGrid(double[] low, double[] high, double[] prior)
    {
        (Low, High) = (low, high);
        Prior = prior;
        Centre = [.. low.Zip(high, (a, b) => double.IsInfinity(b) ? b : Math.Sqrt(a * b))];
    }

    /// <summary>Lower edge of each bin (Ω).</summary>
    public double[] Low { get; }

    /// <summary>Upper edge (Ω).</summary>
    public double[] High { get; }

    /// <summary>Geometric middle (Ω).</summary>
    public double[] Centre { get; }

    /// <summary>Probability of each bin.</summary>
    public double[] Prior { get; }

    public int Count => Prior.Length;

    /// <summary>Even in the logarithm between two values.</summary>
    public static SizeGrid LogEven(double lowOhms, double highOhms, int bins, Func<double, double>? weight = null)
    {
        double ratio = Math.Pow(highOhms / lowOhms, 1.0 / bins);
        double[] low = [.. Enumerable.Range(0, bins).Select(i => lowOhms * Math.Pow(ratio, i))];
        double[] high = [.. low.Select(value => value * ratio)];
        double[] prior = [.. low.Select(value => weight?.Invoke(value * Math.Sqrt(ratio)) ?? 1)];
        double total = prior.Sum();
        return new(low, high, [.. prior.Select(value => value / total)]);
    }

    /// <summary>A break: wet ones conduct a little, dry ones not at all.</summary>
    public static SizeGrid Break()
    {
        SizeGrid wet = LogEven(8_000, 2e7, 12);
        return new(
            [.. wet.Low, double.PositiveInfinity],
            [.. wet.High, double.PositiveInfinity],
            [.. wet.Prior.Select(share => share * StatedProbabilities.BreakIsWet), 1 - StatedProbabilities.BreakIsWet]);
    }

    /// <summary>Index of the bin that holds a value, the nearest at the ends.</summary>
    public int IndexOf(double ohms)
    {
        for (int i = 0; i < Count; i++)
        {
            if (ohms < High[i])
            {
                return i;
            }
        }

        return Count - 1;
    }
}
