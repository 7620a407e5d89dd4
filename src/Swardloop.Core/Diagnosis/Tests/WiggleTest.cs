namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>A joint or terminal moved while an ohmmeter looks on. Judgement, no source.</summary>
internal static class WiggleTest
{
    /// <summary>Probability of a reading that jumps.</summary>
    /// <param name="kind">The fault; <see langword="null"/>: none.</param>
    /// <param name="here">Whether it is where the wire is moved.</param>
    public static double Jumps(CauseKind? kind, bool here) => !here ? 0.03 : kind switch
    {
        CauseKind.Unsteady => 0.85,
        CauseKind.SeriesResistance => 0.45,
        CauseKind.Open => 0.2,
        _ => 0.03,
    };
}
