using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Tests.Diagnosis;

/// <summary>The second route: likelihood of resistance readings by plain sums over the wire's factor and the fault's size. Restates the
/// model; shares no code with <see cref="OhmsEvidence"/>.</summary>
internal static class OhmsByNumbers
{
    private const int FactorNodes = 161, BroadNodes = 1201, SizeNodes = 400;

    /// <summary>The sums end at so many deviations of the wire's factor: what lies beyond has less than 1e-31 of the probability.</summary>
    private const double MostDeviations = 12;

    /// <summary>What wire may lie there, as a factor on the filed resistance: as filed, of another length or gauge, of another metal. Judgement, no source.</summary>
    public static (double Share, double Mean, double Deviation)[] Wires(double deviation) => [(0.91, 1, deviation), (0.06, 1.05, Math.Max(0.2, 2 * deviation)), (0.03, 2.2, 0.9)];

    /// <summary>A reading that only its numbers matter of.</summary>
    public static OhmsReading Reading(double? ohms, double deviationOhms, double nominalOhms) => new()
    {
        Index = 0,
        Epoch = 0,
        Weight = 1,
        Ohms = ohms,
        DeviationOhms = deviationOhms,
        NominalOhms = nominalOhms,
        FromMetres = 0,
        ToMetres = 1,
        WrongProbability = 0.01,
    };

    /// <summary>Average likelihood over a bin of sizes, even in ohms between its edges; infinite edges: a dry break.</summary>
    public static double Likelihood(OhmsReading[] readings, bool[] inPath, double factorDeviation, double lowOhms, double highOhms)
    {
        bool dry = double.IsInfinity(lowOhms);
        if (dry)
        {
            return AtSize(readings, inPath, factorDeviation, lowOhms);
        }

        // Simpson's rule: tails that end inside a bin are steep.
        double sum = 0;
        for (int node = 0; node <= SizeNodes; node++)
        {
            double weight = node is 0 or SizeNodes ? 1 : node % 2 == 1 ? 4 : 2;
            sum += weight * AtSize(readings, inPath, factorDeviation, lowOhms + ((highOhms - lowOhms) * node / SizeNodes));
        }

        return sum / (3 * SizeNodes);
    }

    /// <summary>Likelihood at one size: none of the readings wrong, or one of them; a wrong one may be anything over eight decades.</summary>
    private static double AtSize(OhmsReading[] readings, bool[] inPath, double factorDeviation, double faultOhms) =>
        Wires(factorDeviation).Sum(wire => wire.Share * AtSize(readings, inPath, wire.Mean, wire.Deviation, faultOhms));

    private static double AtSize(OhmsReading[] readings, bool[] inPath, double factorMean, double factorDeviation, double faultOhms)
    {
        int nodes = factorDeviation > 0.15 ? BroadNodes : FactorNodes;
        double step = 2 * MostDeviations / nodes, sum = 0;
        for (int node = 0; node < nodes; node++)
        {
            double z = -MostDeviations + ((node + 0.5) * step), factor = factorMean + (z * factorDeviation);
            double product = 1, oneWrong = 0;
            for (int i = 0; i < readings.Length; i++)
            {
                OhmsReading reading = readings[i];
                double true_ = (factor * reading.NominalOhms) + (inPath[i] ? faultOhms : 0);
                double right = (1 - reading.WrongProbability) * (reading.Ohms is { } shown ? Gauss(shown - true_, reading.DeviationOhms) : Over(inPath[i] ? faultOhms : reading.NominalOhms));
                double wrong = reading.WrongProbability * (reading.Ohms is { } seen ? 1 / (Math.Log(1e8) * Math.Max(Math.Abs(seen), reading.DeviationOhms)) : 0.3);
                oneWrong = (oneWrong * right) + (product * wrong);
                product *= right;
            }

            sum += step * Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * (product + oneWrong);
        }

        return sum;
    }

    public static double Gauss(double error, double deviation) => double.IsInfinity(error) || error * error > 1400 * deviation * deviation
        ? 0
        : Math.Exp(-error * error / (2 * deviation * deviation)) / (deviation * Math.Sqrt(2 * Math.PI));

    /// <summary>Meters of the trade end at 2 to 40 MΩ: half of them at 12 MΩ; one display in 500 is over-range by a bad contact.</summary>
    public static double Over(double ohms) => 0.002 + (0.996 / (1 + Math.Pow(1.2e7 / ohms, 1 / 0.7)));
}
