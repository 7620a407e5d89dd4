using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Practice;

/// <summary>How a practice stood between two steps, by the advice's reckoning. What a step was worth is the outlook before it less the one after.</summary>
/// <param name="Outlook">Expected cost from here to a running mower; 0 when nothing is left to do.</param>
/// <param name="RightShare">Probability given to what was then truly wrong, 0 to 1.</param>
/// <param name="Advised">What the advice would have done; null when nothing.</param>
public sealed record StepWorth(double Outlook, double RightShare, Step? Advised)
{
    /// <summary>Reckons it.</summary>
    /// <param name="whole">The case with all that was seen.</param>
    /// <param name="observations">How many observations were known.</param>
    /// <param name="right">Names that what was left may be given.</param>
    /// <param name="cancellation">Stops the computing.</param>
    public static StepWorth Of(ServiceCase whole, int observations, IReadOnlyList<string> right, CancellationToken cancellation)
    {
        ServiceCase then = whole with
        {
            Observations = [.. whole.Observations.Take(observations)],
            OnSite = whole.Observations.Take(observations).Any(seen => seen.By == Person.Technician),
        };
        Advice advice = Advisor.Advise(then, CausePriors.Default, cancellation);
        return new(
            advice.Next.Count > 0 && !advice.Finished ? advice.Next[0].ExpectedCostToFinish : 0,
            advice.Causes.Where(cause => right.Contains(WireName.Of(cause.Cause))).Sum(cause => cause.Probability),
            advice.Finished || advice.Next.Count == 0 ? null : advice.Next[0].Step);
    }
}
