using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>How one yard went.</summary>
/// <param name="Yard">The yard and its truth.</param>
/// <param name="Played">The steps done, with the advice that led to each.</param>
/// <param name="Cured">The adviser said finished within 30 steps, and the mower truly runs.</param>
/// <param name="Trouble">Why it was not cured, if not.</param>
/// <param name="Cost">Money; for a yard not cured, with what the routine costs there on top.</param>
/// <param name="WrongRepairs">Repairs that mended nothing.</param>
/// <param name="CuredBy">Index of the step after which the mower ran.</param>
/// <param name="Routine">The routine's account.</param>
/// <param name="OracleCost">What the oracle pays.</param>
public sealed record YardResult(
    TrialYard Yard, IReadOnlyList<PlayedStep> Played, bool Cured, string? Trouble, double Cost, int WrongRepairs, int? CuredBy, TrialWorld Routine, double OracleCost)
{
    /// <summary>The adviser's account, without what the routine costs on top where it failed.</summary>
    public IReadOnlyList<Payment> Payments { get; init; } = [];

    /// <summary>The probability given to the right cause, and whether it stood first, in the last advice before the cure; null without a cure.</summary>
    /// <remarks>Of two faults, right is: both of them, the ones the mower minds, or what of either was left when the last step was advised
    /// (after one of two is mended, naming the other is right). Of two faults of one kind, the kind alone is right too.</remarks>
    public CauseVerdict? LastVerdict => CuredBy is { } cure ? Verdict(Played[cure]) : null;

    /// <summary>How an advice's causes stand against the truth.</summary>
    public CauseVerdict Verdict(PlayedStep step)
    {
        HashSet<Cause> right = [];
        foreach (IEnumerable<Fault> faults in new[] { Yard.Faults, Yard.Faults.Where(fault => fault.Harmful), step.Remaining, step.Remaining.Where(fault => fault.Harmful) })
        {
            if (faults.Select(fault => fault.Kind).ToArray() is { Length: > 0 } kinds)
            {
                right.Add(new(kinds[0], kinds.Length > 1 ? kinds[1] : null));
                if (kinds.Distinct().Count() == 1)
                {
                    right.Add(new(kinds[0]));
                }
            }
        }

        double given = step.Advice.Causes.Where(cause => right.Contains(cause.Cause)).Sum(cause => cause.Probability);
        double others = step.Advice.Causes.Where(cause => !right.Contains(cause.Cause)).Sum(cause => cause.Probability * cause.Probability);
        CauseProbability? top = step.Advice.Causes.Count > 0 ? step.Advice.Causes.MaxBy(cause => cause.Probability) : null;
        return new(top is not null && right.Contains(top.Cause), top?.Probability ?? 0, ((1 - given) * (1 - given)) + others);
    }

    /// <summary>For every advice before the cure that names a place of a fault that is there: whether its interval holds it.
    /// Of a leaking pair, or of two faults of one kind, either place will do. A joint is as wide as the contract makes it, 0.3 m to each side.</summary>
    public IEnumerable<PlaceVerdict> PlaceVerdicts()
    {
        foreach (PlayedStep step in Played.Where(step => !step.RanBefore))
        {
            if (step.Advice.Location is not { } place)
            {
                continue;
            }

            Fault[] meant = [.. step.Remaining.Where(fault => fault.InWire && place.Cause.Includes(fault.Kind))];
            if (meant.Length > 0)
            {
                yield return new(
                    meant.Any(fault => Holds(place, fault.AtMetres, fault.AtJoint) || Holds(place, fault.SecondAtMetres, fault.AtJoint)),
                    place.HighMetres - place.LowMetres);
            }
        }
    }

    private static bool Holds(FaultLocation place, double? atMetres, bool joint)
    {
        double slack = joint ? Core.Yards.Loop.JointReachMetres : 0.005;
        return atMetres >= place.LowMetres - slack && atMetres <= place.HighMetres + slack;
    }
}

/// <summary>One step of a trial.</summary>
/// <param name="Advice">What was advised.</param>
/// <param name="Seen">What came of it.</param>
/// <param name="Cost">What it cost.</param>
/// <param name="RanBefore">Whether the mower ran already.</param>
/// <param name="Remaining">The faults there were when it was advised.</param>
public sealed record PlayedStep(TrialAdvice Advice, Observation Seen, double Cost, bool RanBefore, IReadOnlyList<Fault> Remaining);

/// <summary>An advice's causes against the truth.</summary>
/// <param name="TopRight">The likeliest cause is right.</param>
/// <param name="TopProbability">What it was given.</param>
/// <param name="Brier">Sum over causes of (probability − truth)², from 0 to 2.</param>
public sealed record CauseVerdict(bool TopRight, double TopProbability, double Brier);

/// <summary>An interval of place against the truth.</summary>
/// <param name="Holds">The truth lies in it.</param>
/// <param name="LengthMetres">Its length.</param>
public sealed record PlaceVerdict(bool Holds, double LengthMetres);
