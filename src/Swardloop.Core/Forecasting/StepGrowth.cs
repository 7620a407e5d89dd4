using System.Numerics;

namespace Swardloop.Core.Forecasting;

/// <summary>Growth by steps: jumps at random times, of exponential sizes. A hidden level on a grid, filtered forward through the readings for every rate, size and noise.</summary>
internal sealed class StepGrowth
{
    private static readonly double[] JumpsPerYear = [0.15, 0.4, 1, 2.5, 6];
    private static readonly double[] MeanJumpOhms = [0.5, 1.5, 4.5, 13, 40];
    private static readonly (double Scale, double Weight)[] NoiseScales = [(0.8, 0.4), (1.3, 0.4), (2.4, 0.2)];

    private const int MostCells = 400, MostFutureCells = 1500;
    private const double Negligible = 1e-9;

    private readonly Series _series;
    private readonly double _cell, _lowest;
    private readonly int _cells;
    private readonly List<Kind> _kinds = [];
    private double[][]? _smoothed;

    private StepGrowth(Series series, ForecastPrior prior)
    {
        _series = series;
        double[] sorted = [.. series.Ohms.Order()];
        double[] deviations = [.. series.Deviations.Order()];
        double typical = deviations[deviations.Length / 2];

        // A single reading far above all others is no level that others share: it is left to the odd ones, or the grid would be too coarse for the rest.
        double highest = sorted.Length > 2 && sorted[^1] > (4 * sorted[^2]) + 20 ? sorted[^2] : sorted[^1];
        double margin = 5 * Math.Max(typical, Series.WanderShare * highest);
        _lowest = sorted[0] - margin;
        double range = highest + margin - _lowest;
        _cell = Math.Max(0.5 * typical, range / MostCells);
        _cells = (int)Math.Ceiling(range / _cell) + 1;
        Enumerate(prior);
    }

    /// <summary>Logarithm of the share of the prior times the evidence.</summary>
    public double LogEvidence { get; private set; }

    /// <summary>Filters the readings.</summary>
    public static StepGrowth Of(Series series, ForecastPrior prior) => new(series, prior);

    /// <summary>Probability that a limit was passed by each time, given growth by steps.</summary>
    /// <param name="limits">Limits (Ω).</param>
    /// <param name="yearsAfterLast">Times after the last reading (years), ascending.</param>
    /// <returns>Indexed by limit, then: one per reading up to the last, then one per time.</returns>
    public double[][] PassedBy(ReadOnlySpan<double> limits, ReadOnlySpan<double> yearsAfterLast)
    {
        int readings = _series.Count;
        double[][] passed = new double[limits.Length][];
        for (int i = 0; i < limits.Length; i++)
        {
            passed[i] = new double[readings + yearsAfterLast.Length];
        }

        double[][] smoothed = Smoothed();
        for (int i = 0; i < limits.Length; i++)
        {
            for (int k = 0; k < readings; k++)
            {
                passed[i][k] = ShareFrom(smoothed[k], limits[i]);
            }
        }

        double furthest = 0;
        foreach (double limit in limits)
        {
            furthest = Math.Max(furthest, limit - _lowest);
        }

        double cell = Math.Max(_cell, furthest / MostFutureCells);
        double[] below = new double[(int)Math.Ceiling(furthest / cell) + 2];
        double total = _kinds.Sum(kind => kind.Weight);
        foreach (IGrouping<(double, double), Kind> group in _kinds.Where(kind => kind.Weight > 1e-5 * total).GroupBy(kind => (kind.PerYear, kind.MeanOhms)))
        {
            double[] level = new double[_cells];
            foreach (Kind kind in group)
            {
                for (int j = 0; j < _cells; j++)
                {
                    level[j] += kind.Weight / total * kind.Level[j];
                }
            }

            for (int t = 0; t < yearsAfterLast.Length; t++)
            {
                PolyaAeppli.Fill(group.Key.Item1 * yearsAfterLast[t], group.Key.Item2 / cell, below);
                for (int k = 1; k < below.Length; k++)
                {
                    below[k] += below[k - 1];
                }

                for (int i = 0; i < limits.Length; i++)
                {
                    passed[i][readings + t] += Passed(level, limits[i], cell, below);
                }
            }
        }

        return passed;
    }

    /// <summary>Expected level at each reading's time, in the likeliest kind of steps (Ω).</summary>
    public double[] Levels() =>
        [.. Smoothed().Select(level => level.Select((share, j) => share * LevelOf(j)).Sum())];

    /// <summary>The likeliest kind's noise.</summary>
    public double Scale => _kinds.MaxBy(kind => kind.Weight)!.Scale;

    /// <summary>Growth per year with its weights.</summary>
    public IEnumerable<(double OhmsPerYear, double Weight)> Growth()
    {
        double total = _kinds.Sum(kind => kind.Weight);
        return _kinds.Select(kind => (kind.PerYear * kind.MeanOhms, kind.Weight / total));
    }

    /// <summary>Level at the last reading with its weights.</summary>
    public IEnumerable<(double Ohms, double Weight)> LastLevel()
    {
        double total = _kinds.Sum(kind => kind.Weight);
        return Enumerable.Range(0, _cells).Select(j => (LevelOf(j), _kinds.Sum(kind => kind.Weight / total * kind.Level[j])));
    }

    private double LevelOf(int cell) => _lowest + (cell * _cell);

    private double Passed(double[] level, double limit, double cell, double[] below)
    {
        double sum = 0;
        for (int j = 0; j < level.Length; j++)
        {
            if (level[j] < Negligible)
            {
                continue;
            }

            // Half a cell of each grid is spread evenly: growth of k cells stands for k ± ½.
            double at = ((limit - LevelOf(j)) / cell) - 0.5;
            int k = (int)Math.Floor(at);
            double share = at - k;
            double notYet = at < -0.5 ? 0 : k < 0 ? below[0] : k + 1 < below.Length ? below[k] + (share * (below[k + 1] - below[k])) : below[^1];
            sum += level[j] * Math.Max(0, 1 - notYet);
        }

        return sum;
    }

    private double ShareFrom(double[] level, double limit)
    {
        double sum = 0;
        for (int j = 0; j < level.Length; j++)
        {
            sum += LevelOf(j) >= limit ? level[j] : 0;
        }

        return sum;
    }

    private void Enumerate(ForecastPrior prior)
    {
        double medianLog = Math.Log(prior.MedianOhmsPerYear), priorTotal = 0;
        List<(double PerYear, double Mean, double Weight)> kinds = [];
        foreach (double perYear in JumpsPerYear)
        {
            foreach (double mean in MeanJumpOhms)
            {
                double z = (Math.Log(perYear * mean) - medianLog) / prior.LogDeviation;
                kinds.Add((perYear, mean, Math.Exp(-0.5 * z * z)));
                priorTotal += kinds[^1].Weight;
            }
        }

        double[] kernel = new double[_cells];
        foreach ((double scale, double scaleWeight) in NoiseScales)
        {
            double[][] density = Densities(scale);
            foreach ((double perYear, double mean, double weight) in kinds)
            {
                double[] level = Filter(density, perYear, mean, kernel, out double log);
                _kinds.Add(new(perYear, mean, scale, level) { LogWeight = log + Math.Log(prior.StepwiseShare * scaleWeight * weight / priorTotal) });
            }
        }

        double most = _kinds.Max(kind => kind.LogWeight);
        foreach (Kind kind in _kinds)
        {
            kind.Weight = Math.Exp(kind.LogWeight - most);
        }

        LogEvidence = most + Math.Log(_kinds.Sum(kind => kind.Weight));
    }

    private double[][] Densities(double scale)
    {
        double[][] density = new double[_series.Count][];
        for (int i = 0; i < density.Length; i++)
        {
            density[i] = new double[_cells];
            for (int j = 0; j < _cells; j++)
            {
                density[i][j] = _series.Density(i, LevelOf(j), scale);
            }
        }

        return density;
    }

    private double[] Filter(double[][] density, double perYear, double mean, double[] kernel, out double log)
    {
        double[] level = new double[_cells];
        Array.Fill(level, _cell / _series.OddSpanOhms);
        log = 0;
        for (int i = 0; i < density.Length; i++)
        {
            if (i > 0 && _series.Years[i] > _series.Years[i - 1])
            {
                PolyaAeppli.Fill(perYear * (_series.Years[i] - _series.Years[i - 1]), mean / _cell, kernel);
                level = Spread(level, kernel);
            }

            double sum = 0;
            for (int j = 0; j < _cells; j++)
            {
                sum += level[j] *= density[i][j];
            }

            log += Math.Log(sum);
            for (int j = 0; j < _cells; j++)
            {
                level[j] /= sum;
            }
        }

        return level;
    }

    private static double[] Spread(double[] level, double[] kernel)
    {
        double[] spread = new double[level.Length];
        double negligible = Negligible * level.Max();
        for (int from = 0; from < level.Length; from++)
        {
            double share = level[from];
            if (share > negligible)
            {
                Add(share, kernel, spread.AsSpan(from));
            }
        }

        return spread;
    }

    private static void Add(double share, ReadOnlySpan<double> kernel, Span<double> to)
    {
        int k = 0;
        Vector<double> shares = new(share);
        for (; k <= to.Length - Vector<double>.Count; k += Vector<double>.Count)
        {
            (new Vector<double>(to[k..]) + (shares * new Vector<double>(kernel[k..]))).CopyTo(to[k..]);
        }

        for (; k < to.Length; k++)
        {
            to[k] += share * kernel[k];
        }
    }

    /// <summary>The level at each reading given all of them, in the likeliest kind.</summary>
    private double[][] Smoothed() => _smoothed ??= Smooth();

    private double[][] Smooth()
    {
        Kind best = _kinds.MaxBy(kind => kind.Weight)!;
        double[][] density = Densities(best.Scale), forward = new double[_series.Count][];
        double[] kernel = new double[_cells], level = new double[_cells], after = new double[_cells];
        Array.Fill(level, 1);
        for (int i = 0; i < forward.Length; i++)
        {
            if (i > 0 && _series.Years[i] > _series.Years[i - 1])
            {
                Kernel(i);
                level = Spread(level, kernel);
            }

            forward[i] = Normalised([.. level.Zip(density[i], (share, one) => share * one)]);
            level = forward[i];
        }

        Array.Fill(after, 1);
        for (int i = forward.Length - 1; i >= 0; i--)
        {
            forward[i] = Normalised([.. forward[i].Zip(after, (share, one) => share * one)]);
            double[] weighed = Normalised([.. after.Zip(density[i], (share, one) => share * one)]);
            if (i > 0 && _series.Years[i] > _series.Years[i - 1])
            {
                Kernel(i);
                double[] back = new double[_cells];
                for (int from = 0; from < _cells; from++)
                {
                    double sum = 0;
                    for (int to = from; to < _cells; to++)
                    {
                        sum += kernel[to - from] * weighed[to];
                    }

                    back[from] = sum;
                }

                weighed = back;
            }

            after = weighed;
        }

        return forward;

        void Kernel(int i) => PolyaAeppli.Fill(best.PerYear * (_series.Years[i] - _series.Years[i - 1]), best.MeanOhms / _cell, kernel);
    }

    private static double[] Normalised(double[] values)
    {
        double sum = values.Sum();
        for (int j = 0; j < values.Length; j++)
        {
            values[j] /= sum;
        }

        return values;
    }

    private sealed record Kind(double PerYear, double MeanOhms, double Scale, double[] Level)
    {
        public double LogWeight { get; init; }

        public double Weight { get; set; }
    }
}
