namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>The mower put on the station by hand: whether it charges. Judgement, no source.</summary>
internal static class ChargeCheckTest
{
    /// <summary>Probability that it charges.</summary>
    public static double Charges(Condition condition) =>
        condition.Has(CauseKind.NoMains) || condition.Has(CauseKind.Supply) ? 0.03
        : condition.Has(CauseKind.Charging) ? 0.08
        : condition.Has(CauseKind.Station) ? 0.7
        : condition.Has(CauseKind.Unmodelled) ? 0.85
        : 0.97;
}
