namespace Swardloop.Core.Diagnosis;

/// <summary>How many times the filed resistance the wire that lies there may have: normal about a mean, one of several such families.</summary>
/// <param name="Share">Probability of the family.</param>
/// <param name="Mean">Its mean factor.</param>
/// <param name="Deviation">One standard deviation of the factor.</param>
internal readonly record struct WireFactor(double Share, double Mean, double Deviation)
{
    /// <summary>The wire as filed; another length or gauge; another metal. Shares are judgement, no source; clad steel of 21 to 40 % of copper's
    /// conductivity has 2.5 to 4.8 times its resistance (references A3), a gauge mistaken for the next 0.6 to 1.6 times.</summary>
    /// <param name="deviation">One standard deviation of the factor when the file is right.</param>
    public static WireFactor[] All(double deviation) =>
    [
        new(1 - StatedProbabilities.WireOtherThanFiled - StatedProbabilities.WireOfOtherMetal, 1, deviation),
        new(StatedProbabilities.WireOtherThanFiled, 1.05, Math.Max(0.2, 2 * deviation)),
        new(StatedProbabilities.WireOfOtherMetal, 2.2, 0.9),
    ];
}
