using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>Tests of the double runs to islands.</summary>
internal sealed partial class Planner
{
    /// <summary>The mower driven at an island: whether it respects the ring.</summary>
    private void AddIslandCrossings(Person by)
    {
        if (Weight(CauseKind.ShortCircuit) < 0.02)
        {
            return;
        }

        foreach (IslandRun run in _physics.IslandRuns)
        {
            double at = Math.Round((run.OutToMetres + run.BackFromMetres) / 2, 1);
            if (!Asked(seen => seen is Observation.WireCrossing { AtMetres: { } there } && there > run.OutToMetres - 0.5 && there < run.BackFromMetres + 0.5))
            {
                AddCrossing(by, at, false);
            }
        }
    }

    /// <summary>Both wires of the run that a short lies on, as places of the loop.</summary>
    private (double Out, double Back) RunOf(Place place)
    {
        IslandRun run = _physics.IslandRuns.FirstOrDefault(run => place.AtMetres >= run.OutFromMetres - 0.5 && place.AtMetres <= run.OutToMetres + 0.5) ?? _physics.IslandRuns[0];
        return (place.AtMetres, run.Beside(place.AtMetres));
    }

    /// <summary>Probability that a loop reading shows less than the budget allows, where a part of the loop is cut short.</summary>
    private double ReadsLess(PlanAtom atom)
    {
        double lost = atom.Kind == CauseKind.ShortCircuit ? -atom.Condition.ExtraOhms : 0;
        return ReadsLess(lost);
    }

    private double ReadsLess(double lostOhms) => NormalDistribution.Cumulative((lostOhms - LessOhms) / (0.15 + _physics.Budget.StandardDeviationOhms));

    /// <summary>From so much below the budget on a reading counts as less (Ω).</summary>
    private double LessOhms => (2 * _physics.Budget.StandardDeviationOhms) + 0.15;
}
