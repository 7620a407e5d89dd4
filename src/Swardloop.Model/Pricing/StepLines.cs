using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Pricing;

/// <summary>Steps as lines of a quote or bill: time at the hour's rate, parts, travel once a visit. An owner's own step costs nothing.</summary>
public static class StepLines
{
    /// <summary>Lines of steps of one visit.</summary>
    /// <param name="serviceCase">Yard and rates.</param>
    /// <param name="steps">The steps, in order.</param>
    /// <param name="words">The language.</param>
    public static IReadOnlyList<PriceLine> Of(ServiceCase serviceCase, IEnumerable<Step> steps, PriceWords words)
    {
        StepCosts costs = new(serviceCase);
        List<PriceLine> lines = [];
        Step[] paid = [.. steps.Where(step => step.By == Person.Technician)];
        if (paid.Length > 0 && serviceCase.Rates.TravelPerVisit > 0)
        {
            lines.Add(new(words.Travel, 1, words.Visit, Money(serviceCase.Rates.TravelPerVisit)));
        }

        foreach (Step step in paid)
        {
            string text = words.Named(step, serviceCase.Yard);
            double minutes = costs.Minutes(step), parts = costs.Money(step) - (minutes * serviceCase.Rates.LabourPerHour / 60);
            if (step is { Kind: StepKind.RenewLoop, FromMetres: { } from, ToMetres: { } to })
            {
                StepFacts renewing = serviceCase.Rates.Pace.Of(StepKind.RenewLoop);
                (minutes, parts) = (MendOrRenew.StretchMinutes + (renewing.MinutesPerMetre * (to - from)), renewing.PartsPerMetre * (to - from));
            }

            lines.Add(new(text, Math.Round((decimal)minutes / 60, 2), words.Hour, Money(serviceCase.Rates.LabourPerHour)));
            if (parts > 0.005)
            {
                lines.Add(new(words.PartsFor(text), 1, words.Piece, Money(parts)));
            }
        }

        return lines;
    }

    /// <summary>Lines of what was done in a case.</summary>
    public static IReadOnlyList<PriceLine> OfCase(ServiceCase serviceCase, PriceWords words) =>
        Of(serviceCase, serviceCase.Observations.Where(IsDone).Select(StepOf), words);

    private static bool IsDone(Observation seen) => seen is not Observation.NotDone;

    /// <summary>The step that an observation records.</summary>
    public static Step StepOf(Observation seen) => seen switch
    {
        Observation.RepairDone done => new(done.Repair) { AtMetres = done.AtMetres, FromMetres = done.FromMetres, ToMetres = done.ToMetres, By = done.By, Wire = done.Wire },
        Observation.SplitResistance split => new(split.Step) { AtMetres = split.AtMetres, By = split.By, Wire = split.Wire },
        Observation.Bypass bypass => new(bypass.Step) { FromMetres = bypass.FromMetres, ToMetres = bypass.ToMetres, By = bypass.By },
        Observation.Look look => new(look.Step) { FromMetres = look.FromMetres, ToMetres = look.ToMetres, By = look.By, Wire = look.Wire },
        Observation.PinProbe pin => new(pin.Step) { AtMetres = pin.AtMetres, By = pin.By, Wire = pin.Wire },
        Observation.JointDrop drop => new(drop.Step) { AtMetres = drop.AtMetres, By = drop.By, Wire = drop.Wire },
        _ => new(seen.Step) { By = seen.By },
    };

    private static decimal Money(double amount) => Math.Round((decimal)amount, 4);
}
