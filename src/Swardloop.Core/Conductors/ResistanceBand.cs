namespace Swardloop.Core.Conductors;

/// <summary>What a healthy part may measure: ohms, or ohms per metre, as the member that returns it says.</summary>
/// <param name="Low">As little as a healthy part measures.</param>
/// <param name="Nominal">What the part measures when it is exactly what its name says.</param>
/// <param name="High">As much as a healthy part measures: for a wire, the standard's maximum.</param>
/// <remarks>Low and High are limits, about two standard deviations away from the mean, not bounds that nothing passes.</remarks>
public readonly record struct ResistanceBand(double Low, double Nominal, double High)
{
    /// <summary>Expectation of the band read as a three-point estimate, (low + 4 nominal + high) / 6.
    /// Source: Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959) 646, from memory.</summary>
    public double Mean => (Low + (4 * Nominal) + High) / 6;

    /// <summary>Standard deviation of the same three-point estimate: (high − low) / 6.</summary>
    public double StandardDeviation => (High - Low) / 6;

    /// <summary>The band of <paramref name="factor"/> such parts in a row that all err together, as metres of one wire do.</summary>
    public static ResistanceBand operator *(double factor, ResistanceBand band) =>
        new(factor * band.Low, factor * band.Nominal, factor * band.High);
}
