namespace Swardloop.Core.Forecasting;

/// <summary>How a loop grows, along a curve or by steps, each with its weight after the readings.</summary>
internal sealed class Growth
{
    private readonly Series _series;
    private readonly List<SmoothGrowth.Curve> _curves;
    private readonly StepGrowth _steps;
    private readonly double _curvesWeight;

    private Growth(Series series, ForecastPrior prior)
    {
        _series = series;
        _curves = SmoothGrowth.Enumerate(series, prior, out double logScale);
        _curvesWeight = _curves.Sum(curve => curve.Weight);
        _steps = StepGrowth.Of(series, prior);
        double smooth = Math.Log(_curvesWeight) - logScale, difference = _steps.LogEvidence - smooth;
        StepwiseProbability = difference > 0 ? 1 / (1 + Math.Exp(-difference)) : Math.Exp(difference) / (1 + Math.Exp(difference));
    }

    public static Growth Of(Series series, ForecastPrior prior) => new(series, prior);

    public double StepwiseProbability { get; }

    /// <summary>Dates at which limits are passed, each limit uncertain by a normal deviation of so many ohms.</summary>
    public LossDate[] LossDates(double[] limits, double limitDeviation, DateOnly start, double horizonYears, int futureTimes)
    {
        (double Z, double Weight)[] nodes = limitDeviation > 0
            ? [.. Enumerable.Range(-6, 13).Select(i => (0.45 * i, Math.Exp(-0.5 * 0.45 * 0.45 * i * i)))]
            : [(0, 1)];
        double nodesWeight = nodes.Sum(node => node.Weight);
        double[] all = [.. limits.SelectMany(limit => nodes.Select(node => limit + (node.Z * limitDeviation)))];

        double last = _series.Years[^1];
        double[] after = [.. Enumerable.Range(1, futureTimes).Select(i => (horizonYears - last) * Math.Pow((double)i / futureTimes, 1.6))];
        double[] times = [.. _series.Years, .. after.Select(years => last + years)];
        double[][]? steps = StepwiseProbability > 1e-4 ? _steps.PassedBy(all, after) : null;

        LossDate[] dates = new LossDate[limits.Length];
        for (int limit = 0; limit < limits.Length; limit++)
        {
            CumulativeDates collected = new(start, horizonYears);
            for (int node = 0; node < nodes.Length; node++)
            {
                int at = (limit * nodes.Length) + node;
                double share = nodes[node].Weight / nodesWeight, curveShare = share * (steps is null ? 1 : 1 - StepwiseProbability) / _curvesWeight;
                foreach (SmoothGrowth.Curve curve in _curves)
                {
                    collected.Add(curve.PassesAfter(all[at]), curveShare * curve.Weight);
                }

                if (steps is not null)
                {
                    collected.Add(times, steps[at], share * StepwiseProbability);
                }
            }

            dates[limit] = collected.ToDates();
        }

        return dates;
    }

    /// <summary>Probability of each reading that it is odd.</summary>
    public double[] OddProbabilities()
    {
        double[] odd = new double[_series.Count], steps = _steps.Levels();
        for (int i = 0; i < odd.Length; i++)
        {
            double sum = 0;
            foreach (SmoothGrowth.Curve curve in _curves)
            {
                sum += curve.Weight * _series.OddShare(i, curve.At(_series.Years[i]), curve.Scale);
            }

            odd[i] = ((1 - StepwiseProbability) * sum / _curvesWeight) + (StepwiseProbability * _series.OddShare(i, steps[i], _steps.Scale));
        }

        return odd;
    }

    /// <summary>Growth at the last reading (Ω per year).</summary>
    public (double Low, double Median, double High) OhmsPerYear() => Quantiles(
        [.. _curves.Select(curve => (curve.Rate * curve.Bend.Slope(_series.Years[^1]), (1 - StepwiseProbability) * curve.Weight / _curvesWeight)),
            .. _steps.Growth().Select(one => (one.OhmsPerYear, StepwiseProbability * one.Weight))]);

    /// <summary>Level at the last reading (Ω).</summary>
    public (double Low, double Median, double High) LevelOhms() => Quantiles(
        [.. _curves.Select(curve => (curve.At(_series.Years[^1]), (1 - StepwiseProbability) * curve.Weight / _curvesWeight)),
            .. _steps.LastLevel().Select(one => (one.Ohms, StepwiseProbability * one.Weight))]);

    private static (double Low, double Median, double High) Quantiles(List<(double Value, double Weight)> values)
    {
        values.Sort((a, b) => a.Value.CompareTo(b.Value));
        double total = values.Sum(one => one.Weight);
        return (At((1 - LossDate.Credibility) / 2), At(0.5), At((1 + LossDate.Credibility) / 2));

        double At(double share)
        {
            double sum = 0;
            foreach ((double value, double weight) in values)
            {
                sum += weight;
                if (sum >= share * total)
                {
                    return value;
                }
            }

            return values[^1].Value;
        }
    }
}
