namespace Swardloop.Core.Forecasting;

/// <summary>Collects, with weights, when a limit is passed, and gives dates.</summary>
internal sealed class CumulativeDates
{
    private const int Bins = 2400;

    private readonly DateOnly _start;
    private readonly double _years;
    private readonly double[] _by = new double[Bins + 1];
    private double _never;

    /// <param name="start">The first reading's day.</param>
    /// <param name="years">The horizon, from it.</param>
    public CumulativeDates(DateOnly start, double years) => (_start, _years) = (start, years);

    /// <summary>A limit that is passed at one time, with its weight.</summary>
    public void Add(double years, double weight)
    {
        if (years > _years)
        {
            _never += weight;
        }
        else
        {
            _by[years <= 0 ? 0 : Math.Min(Bins, 1 + (int)(years / _years * Bins))] += weight;
        }
    }

    /// <summary>A limit that is passed by ascending times with given probabilities, with its weight.</summary>
    public void Add(ReadOnlySpan<double> times, ReadOnlySpan<double> passedBy, double weight)
    {
        double done = 0, doneTime = 0;
        for (int i = 0; i < times.Length; i++)
        {
            double more = weight * Math.Max(0, passedBy[i] - done);
            done = Math.Max(done, passedBy[i]);
            Spread(doneTime, times[i], more, i == 0);
            doneTime = times[i];
        }

        _never += weight * Math.Max(0, 1 - done);
    }

    /// <summary>The interval.</summary>
    public LossDate ToDates()
    {
        double tail = (1 - LossDate.Credibility) / 2;
        return new(Quantile(tail), Quantile(0.5), Quantile(1 - tail));
    }

    private void Spread(double from, double to, double weight, bool atOnce)
    {
        int first = Math.Min(Bins, 1 + (int)(from / _years * Bins)), last = Math.Min(Bins, 1 + (int)(to / _years * Bins));
        if (atOnce || last <= first)
        {
            _by[atOnce ? 0 : first] += weight;
            return;
        }

        for (int bin = first; bin < last; bin++)
        {
            _by[bin] += weight / (last - first);
        }
    }

    private DateOnly? Quantile(double share)
    {
        double wanted = share * (_by.Sum() + _never), sum = _by[0];
        if (sum >= wanted)
        {
            return _start;
        }

        for (int bin = 1; bin <= Bins; bin++)
        {
            if (sum + _by[bin] >= wanted)
            {
                double years = _years / Bins * (bin - 1 + ((wanted - sum) / _by[bin]));
                return _start.AddDays((int)Math.Round(years * Forecaster.DaysPerYear));
            }

            sum += _by[bin];
        }

        return null;
    }
}
