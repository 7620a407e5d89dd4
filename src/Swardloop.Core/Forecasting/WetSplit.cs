namespace Swardloop.Core.Forecasting;

/// <summary>Readings in wet ground beside the others. The larger group stands as it is; the other is moved by the difference, which its own readings tell, held back by a prior.</summary>
internal sealed record WetSplit(double[] Ohms, double[] Deviations, (double Ohms, double Deviation)? Excess)
{
    /// <summary>One standard deviation of the difference before any reading: so many ohms and such a share of what the loop has above its sound wire. Common practice, no source.</summary>
    private const double PriorOhms = 0.3, PriorShareOfExcess = 0.1;

    public static WetSplit Of(IReadOnlyList<ReadingAt20C> readings, double soundOhms)
    {
        double[] ohms = [.. readings.Select(reading => reading.OhmsAt20C)], deviations = [.. readings.Select(reading => reading.DeviationOhms)];
        int[] wet = [.. Enumerable.Range(0, readings.Count).Where(i => readings[i].Record.Wet && !readings[i].Record.Dry)];
        int[] other = [.. Enumerable.Range(0, readings.Count).Except(wet)];
        if (wet.Length == 0 || other.Length == 0)
        {
            return new(ohms, deviations, null);
        }

        bool wetStands = wet.Length > other.Length;
        (int[] stands, int[] moves) = wetStands ? (wet, other) : (other, wet);
        (double slope, double level) = MedianLine(stands, readings, ohms);
        double[] off = [.. moves.Select(i => ohms[i] - level - (slope * Day(readings[i]))).Order()];
        double difference = (off[(off.Length - 1) / 2] + off[off.Length / 2]) / 2;

        // A median of n has π/2 times the variance of their mean; the line it is taken from adds what its own readings leave open.
        double one = moves.Average(i => deviations[i] * deviations[i]), line = stands.Average(i => deviations[i] * deviations[i]);
        double variance = Math.PI / 2 * ((one / moves.Length) + (2 * line / stands.Length));
        double prior = PriorOhms + (PriorShareOfExcess * Math.Max(0, ohms.Average() - soundOhms));
        double share = prior * prior / ((prior * prior) + variance), left = Math.Sqrt(share * variance);
        foreach (int i in moves)
        {
            ohms[i] -= share * difference;
            deviations[i] = Math.Sqrt((deviations[i] * deviations[i]) + (left * left));
        }

        return new(ohms, deviations, ((wetStands ? -1 : 1) * share * difference, left));
    }

    private static double Day(ReadingAt20C reading) => reading.Record.At.DayNumber;

    /// <summary>A line by the median of all pairs' slopes, never falling. Source: Theil 1950, Sen 1968.</summary>
    private static (double Slope, double Level) MedianLine(int[] of, IReadOnlyList<ReadingAt20C> readings, double[] ohms)
    {
        List<double> slopes = [];
        foreach (int i in of)
        {
            slopes.AddRange(of.Where(j => Day(readings[j]) > Day(readings[i])).Select(j => (ohms[j] - ohms[i]) / (Day(readings[j]) - Day(readings[i]))));
        }

        slopes.Sort();
        double slope = slopes.Count == 0 ? 0 : Math.Max(0, (slopes[(slopes.Count - 1) / 2] + slopes[slopes.Count / 2]) / 2);
        double[] levels = [.. of.Select(i => ohms[i] - (slope * Day(readings[i]))).Order()];
        return (slope, (levels[(levels.Length - 1) / 2] + levels[levels.Length / 2]) / 2);
    }
}
