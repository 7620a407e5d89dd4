using System.Runtime.CompilerServices;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Diagnosis;

/// <summary>From a case to advice: inference by exact enumeration, decision by expected cost to the finish.</summary>
/// <remarks>Deterministic: the same case gives the same advice to the last digit. Safe to call from several threads.</remarks>
public static class Advisor
{
    /// <summary>Probability that the credible interval of place is meant to hold.</summary>
    public const double PlaceCredibility = 0.9;

    private const int StepsShown = 8;
    private const double LeastCauseShown = 1e-4;

    /// <summary>A contact that comes and goes and is so unlikely to be left is none to look for.</summary>
    private const double LittleDoubt = 0.12;

    /// <summary>A saving below this share of what is left to pay is none that the model can know.</summary>
    private const double AboutAsGood = 0.05;

    /// <summary>A yard's physics is computed once and lives as long as the yard.</summary>
    private static readonly ConditionalWeakTable<Yard, YardPhysics> PhysicsOf = [];

    /// <summary>What is believed after the case's observations, and what to do next.</summary>
    /// <param name="serviceCase">The case; taken as checked.</param>
    /// <param name="priors">How often each cause is met.</param>
    /// <param name="cancellation">Ends the work between two of its parts.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static Advice Advise(ServiceCase serviceCase, CausePriors priors, CancellationToken cancellation = default)
    {
        YardPhysics physics = PhysicsOf.GetValue(serviceCase.Yard, yard => new(yard));
        Beliefs beliefs = new(serviceCase, physics, priors);
        Belief belief = beliefs.All;
        cancellation.ThrowIfCancellationRequested();
        CaseHistory history = new(serviceCase);

        // Once the mower did the same after a repair, what was mended is no answer any more.
        List<CauseProbability> causes = Shown(history.SameAfterChange ? belief.CausesLeft() : belief.Causes());
        List<EvidenceWeight> evidence = beliefs.Evidence(causes, out Disagreement? disagreement, cancellation);
        disagreement ??= ImplausibleReading.Find(history, physics);
        double comesBack = history.MowerRuns ? ComesBack(belief) : 1;
        List<AdvisedStep> next = comesBack > LittleDoubt ? NextSteps(serviceCase, history, physics, belief, disagreement) : [];
        bool finished = comesBack <= LittleDoubt || (comesBack < 0.5 && !(next is [var first, ..] && first.CostNow <= comesBack * ComingAgain(serviceCase)));
        cancellation.ThrowIfCancellationRequested();
        return new()
        {
            Causes = causes,
            ExcessOhms = Excess(history, physics),
            Location = PlaceOfFault.Locate(belief, causes, history.SameAfterChange),
            Density = PlaceOfFault.Density(belief),
            Evidence = evidence,
            ComplaintBits = beliefs.ComplaintBits(causes),
            Next = finished ? [] : next,
            Disagreement = disagreement,
            Finished = finished,
        };
    }

    /// <summary>Probability of the fault's place along the wire after the case's observations, given a wire fault: the <see cref="Advice.Density"/>
    /// alone, without the weighing of evidence and the planning that take most of an advice's time.</summary>
    /// <inheritdoc cref="Advise" path="/param[@name='serviceCase' or @name='priors']"/>
    public static IReadOnlyList<DensityBin> PlaceDensity(ServiceCase serviceCase, CausePriors priors) =>
        PlaceOfFault.Density(new Beliefs(serviceCase, PhysicsOf.GetValue(serviceCase.Yard, yard => new(yard)), priors).All);

    /// <summary>Probability that a contact that comes and goes is still there, so that a mower that runs just now is no end.</summary>
    private static double ComesBack(Belief belief) =>
        belief.Faults.Where(fault => fault.Cause.Includes(CauseKind.Unsteady)).Sum(fault => fault.Weight - fault.Mended) / belief.Total;

    /// <summary>What another visit would cost, an hour of it: a mower that runs is left alone where looking on costs more than that, weighed with its chance.</summary>
    private static double ComingAgain(ServiceCase serviceCase) => serviceCase.Rates.TravelPerVisit + serviceCase.Rates.LabourPerHour;

    private static List<CauseProbability> Shown(List<CauseProbability> causes)
    {
        List<CauseProbability> shown = causes.FindAll(cause => cause.Probability >= LeastCauseShown);
        double total = shown.Sum(cause => cause.Probability);
        return [.. shown.Select(cause => cause with { Probability = cause.Probability / total })];
    }

    /// <summary>Excess of the newest loop reading since the last repair (Ω), 90 % interval.</summary>
    private static Interval? Excess(CaseHistory history, YardPhysics physics)
    {
        if (history.LoopReading is not { Ohms: not null } seen)
        {
            return null;
        }

        OhmsReading reading = OhmsReading.From(seen, 0, 0, 1, physics)[0];
        double median = reading.Ohms!.Value - physics.Budget.MeanOhms;
        double deviation = Math.Sqrt(Math.Pow(reading.DeviationOhms, 2) + Math.Pow(physics.Budget.StandardDeviationOhms, 2));
        return new(median - (1.645 * deviation), median, median + (1.645 * deviation));
    }

    private static List<AdvisedStep> NextSteps(ServiceCase serviceCase, CaseHistory history, YardPhysics physics, Belief belief, Disagreement? disagreement)
    {
        Planner planner = new(serviceCase, history, physics, belief);
        List<Planner.Evaluated> best = planner.Best(StepsShown);
        StepCosts costs = new(serviceCase);
        List<AdvisedStep> steps = [];
        for (int i = 0; i < best.Count; i++)
        {
            Planner.Evaluated step = best[i];
            double without = i == 0 && best.Count > 1 ? best[1].Total : planner.EstimatedCost, saves = Math.Max(0, without - step.Total);

            // What the model cannot know is no saving: such steps are about as good.
            steps.Add(new(step.Step, costs.Minutes(step.Step), step.Now, Known(step.Total), planner.Reason(step, saves < AboutAsGood * step.Total ? 0 : Known(saves))));
        }

        if (disagreement is { } settled && Settles(settled, serviceCase, history) is { } repeat)
        {
            bool visits = repeat.By == Person.Technician && !history.OnSite;
            double now = costs.Money(repeat) + (visits ? serviceCase.Rates.TravelPerVisit : 0);
            double least = steps.Count > 0 ? steps[0].ExpectedCostToFinish : Known(planner.EstimatedCost);
            steps.RemoveAll(step => step.Step.Kind == repeat.Kind);
            steps.Insert(0, new(repeat, costs.Minutes(repeat), now, least, new(0, [], null, null, 0) { AsksAgain = AskedAgain.DoesNotFit }));
        }

        return steps;
    }

    /// <summary>The step that settles a reading that contradicts the others, once; null when it was taken again already or nobody can.</summary>
    private static Step? Settles(Disagreement disagreement, ServiceCase serviceCase, CaseHistory history)
    {
        Step repeat = disagreement.Repeat;
        int taken = history.Since(history.AfterChange).Count(seen => seen.Step == repeat.Kind && seen.By == repeat.By);
        return disagreement.Observation >= history.AfterChange && taken < 2 && !history.Refused(repeat) && StepSafety.Forbids(repeat, serviceCase) is null
            && !(CommonSense.NeedsSignal(repeat.Kind) && !history.SignalMayBeThere) ? repeat : null;
    }

    /// <summary>Money rounded to what an estimate can know: units below a hundred, fives above.</summary>
    private static double Known(double money) => money < 100 ? Math.Round(money) : 5 * Math.Round(money / 5);
}
