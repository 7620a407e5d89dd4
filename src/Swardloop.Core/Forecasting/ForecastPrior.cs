namespace Swardloop.Core.Forecasting;

/// <summary>What is believed of a loop's growth before its own readings speak. Stated, so that three readings say something; a workshop's closed forecasts replace it.</summary>
/// <remarks>The shares and figures are common practice, no source; docs/decisions/0100 says why each is as it is.</remarks>
public sealed record ForecastPrior
{
    /// <summary>The stated prior.</summary>
    public static ForecastPrior Stated { get; } = new();

    /// <summary>Share of loops that do not grow at all within a forecast. Default 0.1.</summary>
    public double SteadyShare { get; init; } = 0.1;

    /// <summary>Share whose growth comes in steps: a contact that gives way a little at a time. Default 0.3. The rest grows smoothly.</summary>
    public double StepwiseShare { get; init; } = 0.3;

    /// <summary>Median growth of those that grow (Ω per year). Default 2.</summary>
    public double MedianOhmsPerYear { get; init; } = 2;

    /// <summary>Standard deviation of the growth's natural logarithm. Default 1.1: nine in ten between a sixth of the median and six times it.</summary>
    public double LogDeviation { get; init; } = 1.1;

    /// <summary>Probability that a reading is simply wrong: a wrong range, a loose clip, a slip of the pen. Default 0.03.</summary>
    public double OddReadingProbability { get; init; } = 0.03;

    /// <summary>The same prior with the growth that a workshop's own yards show.</summary>
    /// <param name="ohmsPerYear">Median growth of each yard that grew (Ω per year), above zero.</param>
    /// <returns>Median and deviation of the logarithm drawn towards the stated ones as by ten yards of the stated prior.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A growth is not above zero.</exception>
    public ForecastPrior LearnedFrom(IReadOnlyCollection<double> ohmsPerYear)
    {
        foreach (double growth in ohmsPerYear)
        {
            Guard.Positive(growth, nameof(ohmsPerYear));
        }

        const double StatedYards = 10;
        double count = ohmsPerYear.Count, stated = Math.Log(MedianOhmsPerYear), all = StatedYards + count;
        double mean = ((StatedYards * stated) + ohmsPerYear.Sum(Math.Log)) / all;
        double squares = (StatedYards * ((LogDeviation * LogDeviation) + ((stated - mean) * (stated - mean))))
            + ohmsPerYear.Sum(growth => (Math.Log(growth) - mean) * (Math.Log(growth) - mean));
        return this with { MedianOhmsPerYear = Math.Exp(mean), LogDeviation = Math.Sqrt(squares / all) };
    }
}
