namespace Swardloop.Core.Diagnosis;

/// <summary>Several values of one reading, taken by one person of one yard in one state: those that meter, leads and temperature can explain are one
/// reading taken again; those that differ by more are news of their own and are not averaged.</summary>
internal static class ReadingsApart
{
    /// <summary>Values that differ by less than this share and so many ohms beyond the meter's limits are one reading: leads, clips, a warmer day.</summary>
    private const double AlikeShare = 0.08, AlikeOhms = 0.3;

    /// <summary>Whether an observation is such a reading; in other weather it is another question then.</summary>
    public static bool Applies(Observation seen) => seen is Observation.LoopResistance or Observation.GuideResistance;

    /// <summary>Exponent of each answer's likelihood, for one time that it was given.</summary>
    /// <param name="answers">Different answers to one question, and how often each was given.</param>
    public static double[] Weights(IReadOnlyList<(Observation Seen, int Count)> answers)
    {
        int[] cluster = new int[answers.Count];
        if (answers.All(answer => answer.Seen is Observation.LoopResistance))
        {
            int[] order = [.. Enumerable.Range(0, answers.Count).OrderBy(i => Ohms(i) ?? double.PositiveInfinity)];
            for (int k = 1; k < order.Length; k++)
            {
                cluster[order[k]] = cluster[order[k - 1]] + (Alike(order[k - 1], order[k]) ? 0 : 1);
            }
        }

        double[] weights = new double[answers.Count];
        for (int i = 0; i < weights.Length; i++)
        {
            int together = Enumerable.Range(0, answers.Count).Where(j => cluster[j] == cluster[i]).Sum(j => answers[j].Count);
            weights[i] = Math.Min(1 + (StatedProbabilities.RepeatWeight * (together - 1)), StatedProbabilities.MostRepeats) / together;
        }

        return weights;

        double? Ohms(int i) => ((Observation.LoopResistance)answers[i].Seen).Ohms;

        bool Alike(int a, int b)
        {
            if (Ohms(a) is not { } low || Ohms(b) is not { } high)
            {
                return Ohms(a) is null && Ohms(b) is null;
            }

            MeterAccuracy meter = ((Observation.LoopResistance)answers[b].Seen).Meter;
            return high - low < (2 * meter.LimitOhms(high)) + AlikeOhms + (AlikeShare * Math.Abs(high));
        }
    }
}
