namespace Swardloop.Core.Diagnosis;

/// <summary>When an ohmmeter shows over-range. Meters of the trade end at 2 to 40 MΩ; common practice, no source.</summary>
internal static class OverRange
{
    private const double MiddleOhms = 1.2e7, Spread = 0.7, BadContact = 0.002;

    /// <summary>Probability of an over-range display at a resistance (Ω, infinity allowed).</summary>
    public static double Probability(double ohms) =>
        ohms > 0
            ? BadContact + ((1 - (2 * BadContact)) / (1 + Math.Exp(-Math.Log(ohms / MiddleOhms) / Spread)))
            : BadContact;
}
