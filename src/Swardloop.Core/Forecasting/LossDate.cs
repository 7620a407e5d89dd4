namespace Swardloop.Core.Forecasting;

/// <summary>When something is lost: an equal-tailed interval and its middle. A date is null where it lies beyond the forecast's twenty years; one that lies at the first
/// reading means then or earlier.</summary>
/// <param name="Low">One in twenty is earlier.</param>
/// <param name="Median">As likely earlier as later.</param>
/// <param name="High">One in twenty is later.</param>
public sealed record LossDate(DateOnly? Low, DateOnly? Median, DateOnly? High)
{
    /// <summary>Probability of the interval.</summary>
    public const double Credibility = 0.9;
}
