using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;

namespace Swardloop.Trial;

/// <summary>One who knows the truth: pays travel where a technician is needed, the right repair of every fault the mower minds, and one mower check.</summary>
public static class Oracle
{
    /// <summary>A span this long is mended round a known place (m): half a metre to each side is beyond any error of place.</summary>
    public const double MendMetres = 1;

    /// <summary>What the oracle pays.</summary>
    public static double Cost(TrialYard trial)
    {
        TrialWorld world = new(trial);
        Loop loop = trial.Case.Yard.Loop;
        Fault[] harmful = [.. trial.Faults.Where(fault => fault.Harmful)];
        double wire = harmful.Where(fault => fault.InWire).Select(fault => Repair(fault, loop)).Distinct().Sum(step => Price(world, step));
        if (wire > 0)
        {
            wire = Math.Min(wire, Price(world, new(StepKind.RenewLoop)));
        }

        Step[] others = [.. harmful.Where(fault => !fault.InWire).Select(fault => Repair(fault, loop))];
        bool byOwner = trial.Case.Can.Owner && wire == 0 && Array.TrueForAll(others, step => StepCatalogue.Of(step.Kind).OwnerMay);
        double travel = byOwner || trial.Case.OnSite ? 0 : trial.Case.Rates.TravelPerVisit;
        double repairs = wire + others.Sum(step => Price(world, byOwner ? step with { By = Person.Owner } : step));
        double check = Price(world, new(StepKind.MowerCheck));
        double ownersCheck = trial.Case.Can.Owner ? Price(world, new(StepKind.MowerCheck) { By = Person.Owner }) : check;
        return travel + repairs + Math.Min(check, ownersCheck);
    }

    internal static Step Repair(Fault fault, Loop loop) => fault.Kind switch
    {
        CauseKind.NoMains => new(StepKind.RestoreMains),
        CauseKind.Supply => new(StepKind.ReplaceSupply),
        CauseKind.Station => new(StepKind.ReplaceStation),
        CauseKind.EndsSwapped => new(StepKind.RemakeTerminals),
        CauseKind.Layout => new(StepKind.RelayLayout),
        CauseKind.Crosstalk => new(StepKind.RecodeStation),
        CauseKind.Receiver => new(StepKind.ServiceReceiver),
        CauseKind.Drive => new(StepKind.ServiceDrive),
        _ when fault.AtJoint => fault.AtMetres == 0 || fault.AtMetres == loop.LengthMetres
            ? new(StepKind.RemakeTerminals)
            : new(StepKind.RemakeJoint) { AtMetres = fault.AtMetres },
        _ => new(StepKind.MendSpan)
        {
            FromMetres = Math.Max(0, fault.AtMetres!.Value - (MendMetres / 2)),
            ToMetres = Math.Min(loop.LengthMetres, fault.AtMetres.Value + (MendMetres / 2)),
        },
    };

    private static double Price(TrialWorld world, Step step)
    {
        (double minutes, double parts) = world.Effort(step);
        Rates rates = world.Case.Rates;
        return (minutes / 60 * (step.By == Person.Owner ? rates.OwnerPatiencePerHour : rates.LabourPerHour)) + parts;
    }
}
