namespace Swardloop.Core.Calibration;

/// <summary>Reach constant and source resistance of a station and mower, from bench trials: what is believed of the two after them.</summary>
/// <remarks>
/// <para>Belief is a grid over the logarithms of R0 and of T / (R0 + R), with R the trials' mean resistance: what one trial leaves open
/// is how T and R0 trade off, and along these axes belief stands upright. It is flat before the first trial, within the limits below: a
/// factor is as likely here as there. The grid is refined twice round where the likelihood is. No chance is involved: the same trials
/// give the same bits.</para>
/// <para>Best values are those of the greatest likelihood, refined below the grid's step; intervals hold 90 % of belief each.
/// Accuracy of the intervals' ends: a grid step, about a hundredth of their width. Source: none beyond Bayes' rule.</para>
/// </remarks>
public sealed class ProfileFit
{
    /// <summary>Least and greatest T / (R0 + R) considered (m): one over the field per ampere that a mower needs, from that beside a wire
    /// to that in the middle of the largest lawn.</summary>
    public const double LeastSignalMetres = 0.03, MostSignalMetres = 30_000;

    /// <summary>Least and greatest source resistance considered (Ω). Common practice, no source.</summary>
    public const double LeastSourceOhms = 1, MostSourceOhms = 10_000;

    /// <summary>Enough is known when both intervals' ratios high to low are no more than this: a deviation of 15 % each, which is what
    /// the default profile claims.</summary>
    public const double EnoughRatio = 1.64;

    private const int Steps = 160;
    private const double Credibility = 0.9;

    private readonly IReadOnlyList<BenchTrial> _trials;

    // Every cell that carries belief: the two parameters and its share, which sum to 1.
    private readonly (double ReachConstant, double SourceOhms, double Share)[] _belief;

    private ProfileFit(IReadOnlyList<BenchTrial> trials, (double, double, double)[] belief, (double ReachConstant, double SourceOhms) best)
    {
        (_trials, _belief) = (trials, belief);
        ReachConstantOhmMetres = Interval(_belief.Select(cell => (cell.ReachConstant, cell.Share)), best.ReachConstant);
        SourceOhms = Interval(_belief.Select(cell => (cell.SourceOhms, cell.Share)), best.SourceOhms);
    }

    /// <summary>T = V / Hth (Ω·m).</summary>
    public Estimate ReachConstantOhmMetres { get; }

    /// <summary>R0 (Ω).</summary>
    public Estimate SourceOhms { get; }

    /// <summary>Whether both are known as well as a profile needs; else see <see cref="Suggest"/>.</summary>
    public bool IsEnough => ReachConstantOhmMetres.Ratio <= EnoughRatio && SourceOhms.Ratio <= EnoughRatio;

    /// <summary>Deviations by which each trial misses what the best values make of it, in the trials' order: below about 1 for a good fit; beyond
    /// about 3, that trial disagrees with the others.</summary>
    public IReadOnlyList<double> MissedBy =>
        [.. _trials.Select(trial => Math.Sqrt(Math.Max(0, -2 * trial.LogLikelihood(ReachConstantOhmMetres.Best, SourceOhms.Best))))];

    /// <summary>Fits both to trials.</summary>
    /// <param name="trials">At least one, of one and the same station and mower; loops may differ.</param>
    /// <exception cref="ArgumentException">No trial.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A trial's number is out of its range or not finite.</exception>
    public static ProfileFit To(IReadOnlyList<BenchTrial> trials)
    {
        if (trials.Count == 0)
        {
            throw new ArgumentException("A fit needs at least one trial.", nameof(trials));
        }

        foreach (BenchTrial trial in trials)
        {
            Check(trial);
        }

        // A first grid over everything is too coarse to meet a narrow belief on the head, so a wide margin of likelihood is kept.
        Box box = new(
            Math.Log(LeastSignalMetres), Math.Log(MostSignalMetres), Math.Log(LeastSourceOhms), Math.Log(MostSourceOhms),
            trials.Average(trial => trial.LoopOhms));
        foreach (double margin in (ReadOnlySpan<double>)[200, 30])
        {
            box = box.Around(LogLikelihoods(box, trials), margin);
        }

        double[,] logs = LogLikelihoods(box, trials);
        double most = logs.Cast<double>().Max(), sum = 0;
        List<(double ReachConstant, double SourceOhms, double Share)> belief = [];
        (int I, int J) best = default;
        for (int i = 0; i <= Steps; i++)
        {
            for (int j = 0; j <= Steps; j++)
            {
                double weight = Math.Exp(logs[i, j] - most);
                if (weight > 1e-7)
                {
                    (double reachConstant, double sourceOhms) = box.At(i, j);
                    belief.Add((reachConstant, sourceOhms, weight));
                    sum += weight;
                }

                if (logs[i, j] == most)
                {
                    best = (i, j);
                }
            }
        }

        return new(trials, [.. belief.Select(cell => cell with { Share = cell.Share / sum })], Climb(best, box, trials));
    }

    /// <summary>What the mower will do with another resistance, at a site that was tried or at a new one.</summary>
    /// <param name="site">The loop.</param>
    /// <param name="loopOhms">Resistance of the whole loop (Ω), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Below 0 or not finite.</exception>
    public ReachPrediction Predict(BenchSite site, double loopOhms)
    {
        Guard.NotNegative(loopOhms);
        CoverTrial trial = new(site, loopOhms, true);
        double best = site.Profile.At(trial.NeededField(ReachConstantOhmMetres.Best, SourceOhms.Best)).Metres;
        Estimate distance = Interval(
            _belief.Select(cell => (site.Profile.At(trial.NeededField(cell.ReachConstant, cell.SourceOhms)).Metres, cell.Share)), best);
        double covers = _belief.Sum(cell => cell.Share * Math.Exp(trial.LogLikelihood(cell.ReachConstant, cell.SourceOhms)));
        return new(loopOhms, distance, Math.Min(1, covers));
    }

    /// <summary>The trial that would teach most: the resistance whose outcome, seen as a distance or as covering everything, is expected
    /// to narrow the belief about both values most.</summary>
    /// <param name="site">The loop at hand.</param>
    /// <param name="loopOhms">Resistances of the whole loop to choose from (Ω), at least one.</param>
    /// <param name="deviationMetres">One standard deviation of the distance that will be seen (m), above 0.</param>
    /// <exception cref="ArgumentException">Nothing to choose from.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value out of range or not finite.</exception>
    public SuggestedTrial Suggest(BenchSite site, IReadOnlyList<double> loopOhms, double deviationMetres)
    {
        Guard.Positive(deviationMetres);
        return loopOhms.Count == 0
            ? throw new ArgumentException("Needs at least one resistance.", nameof(loopOhms))
            : loopOhms.Select(ohms => new SuggestedTrial(ohms, ExpectedBits(site, ohms, deviationMetres))).MaxBy(trial => trial.Bits)!;
    }

    // Mutual information of outcome and parameters: what is not known of the outcome, less what chance alone leaves open.
    private double ExpectedBits(BenchSite site, double loopOhms, double deviation)
    {
        Guard.NotNegative(loopOhms);
        CoverTrial trial = new(site, loopOhms, true);
        double step = deviation / 2, farthest = site.Profile.At(double.Epsilon).Metres;

        // Belief about the outcome comes first: where the mower would fall silent, in steps, and whether it covers everything.
        double[] distance = new double[(int)Math.Min(1000, Math.Ceiling(farthest / step)) + 1];
        double covers = 0, chance = 0;
        foreach ((double reachConstant, double sourceOhms, double share) in _belief)
        {
            double needed = trial.NeededField(reachConstant, sourceOhms);
            double heard = Math.Exp(trial.LogLikelihood(reachConstant, sourceOhms));
            covers += share * heard;
            chance += share * (Surprise(heard) + Surprise(1 - heard));
            distance[Math.Min(distance.Length - 1, (int)Math.Round(site.Profile.At(needed).Metres / step))] += share * (1 - heard);
        }

        double seen = 0, blurred = 0;
        for (int k = -8; k < distance.Length + 8; k++)
        {
            double probability = 0;
            for (int m = Math.Max(0, k - 8); m < Math.Min(distance.Length, k + 9); m++)
            {
                probability += distance[m] * Blur[k - m + 8];
            }

            seen += Surprise(probability);
        }

        foreach (double share in Blur)
        {
            blurred += Surprise(share);
        }

        return Math.Max(0, Surprise(covers) + seen - chance - (distance.Sum() * blurred)) / Math.Log(2);
    }

    // A normal distribution in steps of half a deviation, out to four.
    private static double[] Blur { get; } = Normalised(Enumerable.Range(-8, 17).Select(k => Math.Exp(-k * k / 8.0)));

    private static double[] Normalised(IEnumerable<double> values)
    {
        double[] all = [.. values];
        double sum = all.Sum();
        return [.. all.Select(value => value / sum)];
    }

    private static double Surprise(double probability) => probability > 0 ? -probability * Math.Log(probability) : 0;

    private static void Check(BenchTrial trial)
    {
        Guard.NotNegative(trial.LoopOhms, nameof(trial));
        switch (trial)
        {
            case ReachTrial reach:
                Guard.NotNegative(reach.DistanceMetres, nameof(trial));
                Guard.Positive(reach.DeviationMetres, nameof(trial));
                break;
            case LimitTrial limit:
                Guard.Positive(limit.DeviationOhms, nameof(trial));
                break;
        }
    }

    private static double LogLikelihood(IReadOnlyList<BenchTrial> trials, (double ReachConstant, double SourceOhms) values)
    {
        double sum = 0;
        foreach (BenchTrial trial in trials)
        {
            sum += trial.LogLikelihood(values.ReachConstant, values.SourceOhms);
        }

        return sum;
    }

    private static double[,] LogLikelihoods(in Box box, IReadOnlyList<BenchTrial> trials)
    {
        double[,] logs = new double[Steps + 1, Steps + 1];
        for (int i = 0; i <= Steps; i++)
        {
            for (int j = 0; j <= Steps; j++)
            {
                logs[i, j] = LogLikelihood(trials, box.At(i, j));
            }
        }

        return logs;
    }

    // From the grid's best corner uphill by a shrinking cross and its diagonals, in grid steps.
    private static (double ReachConstant, double SourceOhms) Climb((int I, int J) from, in Box box, IReadOnlyList<BenchTrial> trials)
    {
        double i = from.I, j = from.J, best = LogLikelihood(trials, box.At(i, j));
        for (double step = 1; step > 1e-6;)
        {
            bool moved = false;
            foreach ((int across, int along) in (ReadOnlySpan<(int, int)>)[(1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1), (1, -1), (-1, 1)])
            {
                double nextI = Math.Clamp(i + (across * step), 0, Steps), nextJ = Math.Clamp(j + (along * step), 0, Steps);
                double here = LogLikelihood(trials, box.At(nextI, nextJ));
                if (here > best)
                {
                    (i, j, best, moved) = (nextI, nextJ, here, true);
                }
            }

            step = moved ? step : step / 2;
        }

        return box.At(i, j);
    }

    private static Estimate Interval(IEnumerable<(double Value, double Share)> belief, double best)
    {
        (double Value, double Share)[] sorted = [.. belief.OrderBy(cell => cell.Value)];
        double low = Quantile(sorted, (1 - Credibility) / 2), high = Quantile(sorted, (1 + Credibility) / 2);

        // One-sided evidence can put the likeliest value outside the middle nine tenths of belief; the interval then reaches to it.
        return new(Math.Min(low, best), best, Math.Max(high, best));
    }

    private static double Quantile((double Value, double Share)[] sorted, double share)
    {
        double sum = 0;
        foreach ((double value, double part) in sorted)
        {
            sum += part;
            if (sum >= share)
            {
                return value;
            }
        }

        return sorted[^1].Value;
    }

    /// <summary>Limits of the logarithms of T / (R0 + R) and of R0, cut into steps.</summary>
    private readonly record struct Box(double LowSignal, double HighSignal, double LowSource, double HighSource, double MeanOhms)
    {
        public (double ReachConstant, double SourceOhms) At(double i, double j)
        {
            double source = Math.Exp(LogSource(j));
            return (Math.Exp(LogSignal(i)) * (source + MeanOhms), source);
        }

        private double LogSignal(double i) => LowSignal + (i / Steps * (HighSignal - LowSignal));

        private double LogSource(double j) => LowSource + (j / Steps * (HighSource - LowSource));

        /// <summary>The smallest box inside this one that holds every corner less likely than the best by at most a margin of log
        /// likelihood, and one step more on each side.</summary>
        public Box Around(double[,] logs, double margin)
        {
            double least = logs.Cast<double>().Max() - margin;
            int lowI = Steps, highI = 0, lowJ = Steps, highJ = 0;
            for (int i = 0; i <= Steps; i++)
            {
                for (int j = 0; j <= Steps; j++)
                {
                    if (logs[i, j] >= least)
                    {
                        (lowI, highI) = (Math.Min(lowI, i), Math.Max(highI, i));
                        (lowJ, highJ) = (Math.Min(lowJ, j), Math.Max(highJ, j));
                    }
                }
            }

            return this with
            {
                LowSignal = LogSignal(Math.Max(0, lowI - 1)),
                HighSignal = LogSignal(Math.Min(Steps, highI + 1)),
                LowSource = LogSource(Math.Max(0, lowJ - 1)),
                HighSource = LogSource(Math.Min(Steps, highJ + 1)),
            };
        }
    }
}
