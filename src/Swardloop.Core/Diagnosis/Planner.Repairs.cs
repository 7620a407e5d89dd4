namespace Swardloop.Core.Diagnosis;

/// <summary>Repairs, and what they may end.</summary>
internal sealed partial class Planner
{
    private void AddRepairs()
    {
        foreach ((StepKind repair, CauseKind cause, bool _) in Replacements)
        {
            if (Weight(cause) < 0.003 && repair is not (StepKind.RemakeTerminals or StepKind.AskMaker))
            {
                continue;
            }

            foreach (Person by in Doers(repair))
            {
                Observation.RepairDone done = new(repair, null, null, null, null);
                AddRepair(new(repair) { By = by }, done);
            }
        }

        if (!_case.Can.Technician)
        {
            return;
        }

        foreach (Yards.Joint joint in _case.Yard.Loop.Joints)
        {
            AddRepair(new(StepKind.RemakeJoint) { AtMetres = joint.AtMetres }, new(StepKind.RemakeJoint, joint.AtMetres, null, null, null));
        }

        foreach ((int _, double from, double to, double _) in Windows(0.08, 30).OrderByDescending(window => window.Share / (14 + (4.5 * (window.To - window.From)))).Take(24))
        {
            AddRepair(new(StepKind.MendSpan) { FromMetres = from, ToMetres = to }, new(StepKind.MendSpan, null, from, to, null));
        }

        AddRepair(new(StepKind.RenewLoop), new(StepKind.RenewLoop, null, null, null, null));
    }

    private void AddRepair(Step step, Observation.RepairDone done)
    {
        if (IsFoolish(step))
        {
            return;
        }

        (double now, bool visits) = CostNow(step);
        PlanAtom[] atoms = _plan.Atoms;
        double cured = 0, mends = 0;
        for (int i = 0; i < atoms.Length; i++)
        {
            double first = CuresPart(done, atoms[i].Kind, atoms[i].Place, atoms[i].InWire);
            double second = atoms[i].OtherKind is { } kind ? CuresPart(done, kind, atoms[i].OtherPlace, atoms[i].OtherSpread.Length > 0) : 0;
            if (atoms[i].OtherKind == CauseKind.LeakPair)
            {
                first = StatedProbabilities.OneLeakOfTwoSuffices * (1 - ((1 - first) * (1 - second)));
                second = first;
            }

            _first[i] = atoms[i].Weight * (1 - first);
            _second[i] = atoms[i].Weight * (1 - second);
            cured += atoms[i].Weight * (atoms[i].OtherKind is null or CauseKind.LeakPair ? first : first * second);
            mends += atoms[i].Weight * (1 - ((1 - first) * (1 - second)));
        }

        // Of two faults the one that is mended is one less, though the mower does not run yet.
        if (mends < 0.002)
        {
            return;
        }

        // The check that follows is part of the repair's price, and a running mower ends the case.
        Estimated after = ToGo(_first, _second, 0.01 * _plan.Mended, _onSite || visits);
        _found.Add(new(step, now, after.Plus(_costs.CheckAfter), cured, []));
    }

    private double CuresPart(Observation.RepairDone done, CauseKind kind, Place place, bool inWire) =>
        kind == CauseKind.Guide ? GuideRepairs.Cures(done, place, _physics) : inWire ? _belief.Repairs.Cures(done, place) : RepairModel.Cures(done.Repair, kind);
}
