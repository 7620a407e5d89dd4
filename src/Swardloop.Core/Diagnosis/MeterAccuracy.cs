namespace Swardloop.Core.Diagnosis;

/// <summary>A meter's limits of error: ±(percent of reading + digits × resolution).</summary>
/// <param name="PercentOfReading">Percent of the reading.</param>
/// <param name="Digits">Counts of the last digit.</param>
/// <param name="ResolutionOhms">What one count is worth (Ω).</param>
public sealed record MeterAccuracy(double PercentOfReading, double Digits, double ResolutionOhms)
{
    /// <summary>A plain ten-euro meter on its 200 Ω range: ±(0.8 % + 3 digits of 0.1 Ω). From memory of common data sheets.</summary>
    public static MeterAccuracy Plain { get; } = new(0.8, 3, 0.1);

    /// <summary>The limit of error at a reading (Ω).</summary>
    public double LimitOhms(double readingOhms) =>
        (Math.Abs(readingOhms) * PercentOfReading / 100) + (Digits * ResolutionOhms);
}
