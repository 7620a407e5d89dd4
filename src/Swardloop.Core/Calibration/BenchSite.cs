using Swardloop.Core.Budget;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Calibration;

/// <summary>A loop on which mowers were tried: what its field does with distance, and what its wire measures.</summary>
/// <param name="Profile">How far a mower runs for the field it needs.</param>
/// <param name="WeakestFieldPerAmpere">|g| at the weakest place of the lawn, its middle as a rule (1/m), above 0.</param>
/// <param name="WireOhms">The loop without any resistor (Ω).</param>
/// <param name="ReactanceOhms">Its reactance at the station's frequency (Ω).</param>
public sealed record BenchSite(ReachProfile Profile, double WeakestFieldPerAmpere, double WireOhms, double ReactanceOhms)
{
    /// <summary>The site that a yard makes. Its station and mower only lend frequency and sensor height; what they hear and give is
    /// what calibration looks for.</summary>
    /// <param name="yard">A checked yard.</param>
    /// <returns>The site; <see langword="null"/> when some place on its lawn has no field at all and would be silent at any resistance.</returns>
    /// <exception cref="ArgumentException">The yard's wire has no budget: see <see cref="LoopBudget.For"/>.</exception>
    public static BenchSite? Of(Yard yard)
    {
        LoopBudget budget = LoopBudget.For(yard);
        LoopReach reach = new(yard);
        double weakest = reach.Weakest.FieldPerAmpere;
        return weakest > 0 ? new(reach.Profile, weakest, budget.MeanOhms, budget.ReactanceOhms) : null;
    }
}
