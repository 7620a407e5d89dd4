namespace Swardloop.Core.Forecasting;

/// <summary>Growth along a curve: level + rate × shape(t), straight, accelerating or slowing. Exact enumeration over level, rate, bend and noise.</summary>
internal static class SmoothGrowth
{
    /// <summary>Bends and their prior weights. An exponential e^(κt) whose rate doubles again and again, or a parabola whose rate rises evenly: readings tell a bend long
    /// before they tell which of the two it is, and the date depends on that. Common practice, no source: most contacts rot steadily for years, some ever faster.</summary>
    private static readonly (Bend Bend, double Weight)[] Bends =
    [
        (new(0, 0), StraightShare), (new(-0.25, 0), 0.01),
        .. Spread([0.06, 0.12, 0.2, 0.3, 0.45, 0.65, 0.95, 1.4], 0.06).Select(one => (new Bend(one.PerYear, 0), one.Weight)),
        .. Spread([0.04, 0.08, 0.15, 0.28, 0.5, 0.9, 1.7, 3.4], 0.93 - StraightShare).Select(one => (new Bend(0, one.PerYear), one.Weight)),
    ];

    private const double StraightShare = 0.56;
    private const int RatePoints = 28, LevelPoints = 5;
    private const double RegionNats = 12, LevelDeviations = 2.6, UsualScale = 1.1;

    /// <summary>How growth departs from a straight line: by e^(κt) or by γt² (both 1/year), not by both.</summary>
    public readonly record struct Bend(double Exponential, double Quadratic)
    {
        /// <summary>Growth at a time for a rate of 1 per year at time 0.</summary>
        public double Shape(double years) =>
            Exponential == 0 ? years * (1 + (Quadratic * years)) : (Math.Exp(Exponential * years) - 1) / Exponential;

        /// <summary>Its slope there.</summary>
        public double Slope(double years) => Exponential == 0 ? 1 + (2 * Quadratic * years) : Math.Exp(Exponential * years);

        /// <summary>The time at which the shape reaches a value above zero; infinite when never.</summary>
        public double Reaches(double value)
        {
            if (Quadratic > 0)
            {
                return 2 * value / (1 + Math.Sqrt(1 + (4 * Quadratic * value)));
            }

            double inside = 1 + (Exponential * value);
            return Exponential == 0 ? value : inside > 0 ? Math.Log(inside) / Exponential : double.PositiveInfinity;
        }
    }

    /// <summary>One curve with its weight: prior × likelihood × the cell it stands for.</summary>
    public readonly record struct Curve(double Level, double Rate, Bend Bend, double Scale, double Weight)
    {
        public double At(double years) => Level + (Rate * Bend.Shape(years));

        /// <summary>When the curve passes a limit (years); infinite when never.</summary>
        public double PassesAfter(double limit) =>
            limit <= Level ? 0 : Rate <= 0 ? double.PositiveInfinity : Bend.Reaches((limit - Level) / Rate);
    }

    private static IEnumerable<(double PerYear, double Weight)> Spread(double[] bends, double share) => bends.Select(bend => (bend, share / bends.Length));

    /// <summary>All curves that the readings leave possible. Weights sum to the share of the prior times the evidence, scaled by e^<paramref name="logScale"/>.</summary>
    public static List<Curve> Enumerate(Series series, ForecastPrior prior, out double logScale)
    {
        List<(double LogWeight, Curve Curve)> all = [];
        double[] shape = new double[series.Count];
        AddLevels(series, shape, default, 0, Math.Log(prior.SteadyShare), all);
        double smoothShare = 1 - prior.SteadyShare - prior.StepwiseShare;
        foreach ((Bend bend, double weight) in Bends)
        {
            for (int i = 0; i < shape.Length; i++)
            {
                shape[i] = bend.Shape(series.Years[i]);
            }

            (double from, double to) = Region(series, shape, prior);
            double step = (to - from) / (RatePoints - 1);
            for (int i = 0; i < RatePoints; i++)
            {
                double log = from + (i * step);
                AddLevels(series, shape, bend, Math.Exp(log), Math.Log(smoothShare * weight * step) + LogPrior(log, prior), all);
            }
        }

        double most = all.Max(one => one.LogWeight);
        logScale = -most;
        return [.. all.Where(one => one.LogWeight > most - 16).Select(one => one.Curve with { Weight = Math.Exp(one.LogWeight - most) })];
    }

    private static double LogPrior(double logRate, ForecastPrior prior)
    {
        double z = (logRate - Math.Log(prior.MedianOhmsPerYear)) / prior.LogDeviation;
        return (-0.5 * z * z) - Math.Log(prior.LogDeviation * Math.Sqrt(2 * Math.PI));
    }

    /// <summary>The range of the rate's logarithm worth enumerating: narrowed until a fair share of its points counts.</summary>
    private static (double From, double To) Region(Series series, double[] shape, ForecastPrior prior)
    {
        double middle = Math.Log(prior.MedianOhmsPerYear), from = middle - (4 * prior.LogDeviation), to = middle + (4 * prior.LogDeviation);
        double[] profile = new double[RatePoints];
        double[] rest = new double[series.Count];
        for (int round = 0; round < 6; round++)
        {
            double step = (to - from) / (RatePoints - 1);
            int best = 0;
            for (int i = 0; i < RatePoints; i++)
            {
                double log = from + (i * step), rate = Math.Exp(log);
                profile[i] = LogPrior(log, prior) + LogLikelihood(series, shape, rate, LevelOf(series, shape, rate, 2.8, rest, out _), 2.8);
                best = profile[i] > profile[best] ? i : best;
            }

            int first = Array.FindIndex(profile, value => value > profile[best] - RegionNats), last = Array.FindLastIndex(profile, value => value > profile[best] - RegionNats);
            (from, to) = (from + (Math.Max(0, first - 1) * step), from + (Math.Min(RatePoints - 1, last + 1) * step));
            if (last - first + 1 >= RatePoints / 3)
            {
                break;
            }
        }

        return (from, to);
    }

    /// <summary>The level that fits best at a rate: the median of what is left, then a few rounds that give odd readings no say.</summary>
    private static double LevelOf(Series series, double[] shape, double rate, double scale, double[] rest, out double deviation)
    {
        for (int i = 0; i < rest.Length; i++)
        {
            rest[i] = series.Ohms[i] - (rate * shape[i]);
        }

        Span<double> sorted = rest.Length <= 128 ? stackalloc double[rest.Length] : new double[rest.Length];
        rest.CopyTo(sorted);
        sorted.Sort();
        double level = (sorted[(rest.Length - 1) / 2] + sorted[rest.Length / 2]) / 2, information = 0;
        for (int round = 0; round < 3; round++)
        {
            double sum = 0;
            information = 0;
            for (int i = 0; i < rest.Length; i++)
            {
                double at = level + (rate * shape[i]), one = series.DeviationAt(i, at, scale);
                double weight = (1 - series.OddShare(i, at, scale) + 1e-3) / (one * one);
                sum += weight * rest[i];
                information += weight;
            }

            level = sum / information;
        }

        deviation = 1 / Math.Sqrt(information);
        return level;
    }

    private static double LogLikelihood(Series series, double[] shape, double rate, double level, double scale)
    {
        double log = 0, product = 1;
        for (int i = 0; i < shape.Length; i++)
        {
            product *= series.Density(i, level + (rate * shape[i]), scale);
            if ((i & 15) == 15)
            {
                log += Math.Log(product);
                product = 1;
            }
        }

        return log + Math.Log(product);
    }

    private static void AddLevels(Series series, double[] shape, Bend bend, double rate, double logPrior, List<(double, Curve)> all)
    {
        double[] rest = new double[series.Count];
        double centre = LevelOf(series, shape, rate, UsualScale, rest, out double deviation);
        foreach ((double scale, double weight) in Series.NoiseScales)
        {
            // Equal steps of 1.3 deviations add up a normal density to five digits: the trapezoidal rule converges that fast on it.
            double step = 2 * LevelDeviations * deviation * (scale / UsualScale) / (LevelPoints - 1);
            double log = logPrior + Math.Log(weight * step / series.OddSpanOhms);
            for (int i = 0; i < LevelPoints; i++)
            {
                double level = centre + ((i - (LevelPoints / 2)) * step);
                all.Add((log + LogLikelihood(series, shape, rate, level, scale), new(level, rate, bend, scale, 0)));
            }
        }
    }
}
