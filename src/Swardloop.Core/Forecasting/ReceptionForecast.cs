namespace Swardloop.Core.Forecasting;

/// <summary>When a yard loses reception, from the readings of its loop.</summary>
public sealed record ReceptionForecast
{
    /// <summary>How far ahead a forecast looks (years).</summary>
    public const double HorizonYears = 20;

    /// <summary>Every reading, in order of its day, taken to 20 °C.</summary>
    public required IReadOnlyList<ReadingAt20C> Readings { get; init; }

    /// <summary>Loop resistance at 20 °C at which the weakest spot falls silent (Ω), station and mower as filed; null when no loop, however good, is heard there.</summary>
    public required double? WeakestLimitOhms { get; init; }

    /// <summary>The same for 5 % of the lawn (Ω).</summary>
    public required double? FivePercentLimitOhms { get; init; }

    /// <summary>One standard deviation of <see cref="WeakestLimitOhms"/> (Ω): what is not known of station and mower.</summary>
    public required double LimitDeviationOhms { get; init; }

    /// <summary>When the weakest spot is lost, station and mower as filed.</summary>
    public required LossDate WeakestLost { get; init; }

    /// <summary>When 5 % of the lawn are lost, station and mower as filed.</summary>
    public required LossDate FivePercentLost { get; init; }

    /// <summary>When the weakest spot is lost, allowing for what is not known of station and mower.</summary>
    public required LossDate WeakestLostAllowing { get; init; }

    /// <summary>When 5 % of the lawn are lost, allowing for the same.</summary>
    public required LossDate FivePercentLostAllowing { get; init; }

    /// <summary>The loop at the last reading, 20 °C (Ω): 5 %, median, 95 %.</summary>
    public required (double Low, double Median, double High) LevelOhms { get; init; }

    /// <summary>Its growth at the last reading (Ω per year): 5 %, median, 95 %.</summary>
    public required (double Low, double Median, double High) GrowthOhmsPerYear { get; init; }

    /// <summary>Probability that the growth comes in steps; the rest is along a curve.</summary>
    public required double StepwiseProbability { get; init; }

    /// <summary>How much more readings in wet ground show than others (Ω, negative: less), with one standard deviation; null when they were not told apart.</summary>
    public (double Ohms, double Deviation)? WetExcess { get; init; }

    /// <summary>What a person should know, with the reading meant, by its place in <see cref="Readings"/>, or null.</summary>
    public required IReadOnlyList<(ForecastNote Note, int? Reading)> Notes { get; init; }
}
