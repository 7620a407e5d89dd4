namespace Swardloop.Core.Diagnosis;

/// <summary>What a case's resistance readings say of two faults in series at two places.</summary>
/// <remarks>
/// The readings are linear in the wire's factor and the two sizes; the factor is integrated exactly. Sizes have priors even in the
/// logarithm, which vary slowly against a reading's sharpness: each determined size is integrated with its prior's density taken at the
/// best value (Laplace's method, exact for a flat density). Where the readings see only the sum, the density of the sum stands in.
/// </remarks>
internal sealed class TwoFaultOhms(IReadOnlyList<OhmsReading> readings, double factorDeviation)
{
    private readonly Dictionary<(Int128, Int128, Range, Range), Result> _results = [];

    /// <summary>Likelihood of all readings, and the sizes that fit best.</summary>
    /// <param name="patternA">Readings with the first fault in their path.</param>
    /// <param name="patternB">Readings with the second fault in their path.</param>
    /// <param name="rangeA">Prior of the first size.</param>
    /// <param name="rangeB">Prior of the second size.</param>
    public Result Of(Int128 patternA, Int128 patternB, Range rangeA, Range rangeB)
    {
        if (!_results.TryGetValue((patternA, patternB, rangeA, rangeB), out Result result))
        {
            result = Compute(patternA, patternB, rangeA, rangeB);
            _results.Add((patternA, patternB, rangeA, rangeB), result);
        }

        return result;
    }

    private Result Compute(Int128 patternA, Int128 patternB, Range rangeA, Range rangeB)
    {
        Result all = Compute(patternA, patternB, rangeA, rangeB, -1, out double misfit);
        const double Fits = 12;
        if (misfit < Fits)
        {
            return all;
        }

        // One reading may simply be wrong; worth the time only where all of them together do not fit.
        double likelihood = all.Likelihood;
        Result best = all;
        for (int wrong = 0; wrong < readings.Count; wrong++)
        {
            Result others = Compute(patternA, patternB, rangeA, rangeB, wrong, out _);
            likelihood += others.Likelihood;
            best = others.Likelihood > best.Likelihood ? others : best;
        }

        return best with { Likelihood = likelihood };
    }

    private Result Compute(Int128 patternA, Int128 patternB, Range rangeA, Range rangeB, int wrong, out double misfit)
    {
        double kk = 1 / (factorDeviation * factorDeviation), ky = kk, yy = kk, log = 0.5 * Math.Log(kk);
        double kA = 0, kB = 0, aa = 0, bb = 0, ab = 0, ay = 0, by = 0;
        for (int i = 0; i < readings.Count; i++)
        {
            OhmsReading reading = readings[i];
            bool inA = (patternA & (Int128.One << i)) != 0, inB = (patternB & (Int128.One << i)) != 0;
            bool dry = (inA && rangeA.IsInfinite) || (inB && rangeB.IsInfinite);
            if (i == wrong)
            {
                log += reading.Weight * Math.Log(reading.WrongProbability * (reading.Ohms is { } shown ? 1 / (18.42 * Math.Max(Math.Abs(shown), reading.DeviationOhms)) : 0.3));
                continue;
            }

            if (reading.Ohms is not { } ohms)
            {
                if (!inA && !inB)
                {
                    log += Math.Log(OverRange.Probability(reading.NominalOhms));
                }
                else if (dry)
                {
                    log += Math.Log(OverRange.Probability(double.PositiveInfinity));
                }

                continue;
            }

            if (dry)
            {
                // A number through a dry break: the reading is wrong, or the hypothesis is.
                log += reading.Weight * Math.Log(reading.WrongProbability / (18.42 * Math.Max(Math.Abs(ohms), reading.DeviationOhms)));
                continue;
            }

            double p = reading.Weight / (reading.DeviationOhms * reading.DeviationOhms), n = reading.NominalOhms;
            log += reading.Weight * Math.Log((1 - reading.WrongProbability) / (reading.DeviationOhms * Math.Sqrt(2 * Math.PI)));
            kk += p * n * n;
            ky += p * n * ohms;
            yy += p * ohms * ohms;
            if (inA)
            {
                kA += p * n;
                aa += p;
                ay += p * ohms;
            }

            if (inB)
            {
                kB += p * n;
                bb += p;
                by += p * ohms;
            }

            if (inA && inB)
            {
                ab += p;
            }
        }

        // What is left of the factor's row and column once it is integrated out.
        log -= 0.5 * Math.Log(kk);
        double least = yy - (ky * ky / kk);
        double pAA = aa - (kA * kA / kk), pBB = bb - (kB * kB / kk), pAB = ab - (kA * kB / kk);
        double qA = ay - (kA * ky / kk), qB = by - (kB * ky / kk);
        bool seesA = !rangeA.IsInfinite && pAA > 1e-12, seesB = !rangeB.IsInfinite && pBB > 1e-12;
        double ohmsA = rangeA.Typical, ohmsB = rangeB.Typical, factor = 1;
        if (seesA && seesB)
        {
            double determinant = (pAA * pBB) - (pAB * pAB);
            if (determinant > 1e-3 * pAA * pBB)
            {
                ohmsA = ((pBB * qA) - (pAB * qB)) / determinant;
                ohmsB = ((pAA * qB) - (pAB * qA)) / determinant;
                least -= (ohmsA * qA) + (ohmsB * qB);
                factor = Math.Sqrt(determinant / (pAA * pBB)) * rangeA.Fit(ohmsA, Math.Sqrt(pBB / determinant)) * rangeB.Fit(ohmsB, Math.Sqrt(pAA / determinant));
            }
            else
            {
                double sum = (qA + qB) / (pAA + pBB + (2 * pAB)) * 2;
                double precision = (pAA + pBB + (2 * pAB)) / 4;
                least -= precision * sum * sum;
                factor = SumFit(rangeA, rangeB, sum, 1 / Math.Sqrt(precision));
                (ohmsA, ohmsB) = rangeA.Typical > 10 * rangeB.Typical ? (0.8 * sum, 0.2 * sum)
                    : rangeB.Typical > 10 * rangeA.Typical ? (0.2 * sum, 0.8 * sum)
                    : (0.5 * sum, 0.5 * sum);
            }
        }
        else if (seesA || seesB)
        {
            (double p, double q, Range range) = seesA ? (pAA, qA, rangeA) : (pBB, qB, rangeB);
            double ohms = q / p;
            least -= p * ohms * ohms;
            factor = range.Fit(ohms, 1 / Math.Sqrt(p));
            (ohmsA, ohmsB) = seesA ? (ohms, ohmsB) : (ohmsA, ohms);
        }

        for (int i = 0; i < readings.Count; i++)
        {
            bool inA = (patternA & (Int128.One << i)) != 0, inB = (patternB & (Int128.One << i)) != 0;
            if (i != wrong && readings[i].Ohms is null && ((inA && !rangeA.IsInfinite) || (inB && !rangeB.IsInfinite))
                && !((inA && rangeA.IsInfinite) || (inB && rangeB.IsInfinite)))
            {
                factor *= OverRange.Probability((inA ? Math.Max(ohmsA, 0) : 0) + (inB ? Math.Max(ohmsB, 0) : 0));
            }
        }

        misfit = least;
        return new(Math.Exp(log - (Math.Max(least, 0) / 2)) * factor, Math.Max(ohmsA, 1), Math.Max(ohmsB, 1));
    }

    // The larger of two log-even sizes makes the sum; the smaller is anything below it.
    private static double SumFit(Range a, Range b, double sum, double deviation) =>
        (a.Fit(sum, deviation) * b.Below(sum)) + (b.Fit(sum, deviation) * a.Below(sum));

    /// <summary>Likelihood and best sizes (Ω; infinity for a dry break).</summary>
    public readonly record struct Result(double Likelihood, double OhmsA, double OhmsB);

    /// <summary>A prior even in the logarithm, or a dry break.</summary>
    public readonly record struct Range(double Low, double High)
    {
        public static Range Of(CauseKind kind, bool dry, double leastSeriesOhms) =>
            dry ? new(double.PositiveInfinity, double.PositiveInfinity)
            : kind == CauseKind.Open ? new(8_000, 2e7)
            : new(leastSeriesOhms, 20_000);

        public bool IsInfinite => double.IsInfinity(Low);

        public double Typical => IsInfinite ? Low : Math.Sqrt(Low * High);

        /// <summary>Mean over the prior of exp(−(ohms − size)²/2σ²): how well sizes of this range fit, at most 1. A reading that is no sharper than
        /// the range is wide says nothing of a size, and must not favour there being one.</summary>
        public double Fit(double ohms, double deviation)
        {
            double logRange = Math.Log(High / Low);
            if (deviation < 0.1 * ohms && ohms - Low > 3 * deviation && High - ohms > 3 * deviation)
            {
                return Math.Sqrt(2 * Math.PI) * deviation / (ohms * logRange);
            }

            const int Bins = 24;
            double ratio = Math.Exp(logRange / Bins), low = Low, sum = 0;
            for (int i = 0; i < Bins; i++)
            {
                double high = low * ratio;
                sum += NormalDistribution.Between((low - ohms) / deviation, (high - ohms) / deviation) / (high - low);
                low = high;
            }

            return Math.Sqrt(2 * Math.PI) * deviation * sum / Bins;
        }

        public double Below(double ohms) => Math.Clamp(Math.Log(Math.Max(ohms, Low) / Low) / Math.Log(High / Low), 0, 1);
    }
}
