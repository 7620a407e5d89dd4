namespace Swardloop.Core.Calibration;

/// <summary>A best value and the 90 % credible interval round it, in the unit that the member which returns it says.</summary>
/// <param name="Low">5 % of belief lies below.</param>
/// <param name="Best">The value that explains the trials best.</param>
/// <param name="High">5 % of belief lies above.</param>
public readonly record struct Estimate(double Low, double Best, double High)
{
    /// <summary>High over low: 1 for certainty.</summary>
    public double Ratio => High / Low;
}
