using Swardloop.Core.Diagnosis;

namespace Swardloop.Model.Cases;

/// <summary>What a finished case teaches: which cause its repair ended.</summary>
public static class ClosedCase
{
    private static readonly CauseKind[] InTheWire =
        [CauseKind.SeriesResistance, CauseKind.Open, CauseKind.Leak, CauseKind.LeakPair, CauseKind.ShortCircuit, CauseKind.Unsteady, CauseKind.Guide];

    /// <summary>The cause that a closed case had, or null while it is open.</summary>
    /// <param name="serviceCase">The case.</param>
    /// <param name="advise">What was believed before the repair: it decides between causes that one repair ends alike.</param>
    /// <remarks>A case is closed when its last word on the mower is a check that found it running, with a repair before it.
    /// Of several repairs since the last failed check, any may have been the one.</remarks>
    public static CauseKind? CauseOf(ServiceCase serviceCase, Func<ServiceCase, Advice> advise)
    {
        IReadOnlyList<Observation> all = serviceCase.Observations;
        int check = LastIndex(all, all.Count, observation => observation is Observation.MowerCheck);
        if (check < 0 || all[check] is not Observation.MowerCheck { Runs: true } || LastIndex(all, all.Count, IsMending) > check)
        {
            return null;
        }

        int failed = LastIndex(all, check, observation => observation is Observation.MowerCheck { Runs: false });
        List<int> repairs = [.. Enumerable.Range(failed + 1, check - failed - 1).Where(i => IsMending(all[i]))];
        if (repairs.Count == 0)
        {
            return null;
        }

        CauseKind[] ended = [.. repairs.SelectMany(i => EndedBy(all[i].Step)).Distinct().Order()];
        if (ended.Length == 1)
        {
            return ended[0];
        }

        Advice before = advise(serviceCase with { Observations = [.. all.Take(repairs[0])] });
        return ended.MaxBy(kind => before.Causes.Where(cause => cause.Cause.Includes(kind)).Sum(cause => cause.Probability));
    }

    /// <summary>Opening a joint includes remaking it.</summary>
    private static bool IsMending(Observation observation) =>
        observation is Observation.RepairDone or Observation.SplitResistance;

    /// <summary>Which causes a repair can end, by the contract's table.</summary>
    private static CauseKind[] EndedBy(StepKind repair) => repair switch
    {
        StepKind.RestoreMains => [CauseKind.NoMains],
        StepKind.ReplaceSupply => [CauseKind.Supply],
        StepKind.ReplaceStation => [CauseKind.Station],
        StepKind.RemakeTerminals => [CauseKind.EndsSwapped, CauseKind.SeriesResistance, CauseKind.Open, CauseKind.Unsteady],
        StepKind.RemakeJoint or StepKind.SplitResistance or StepKind.MendSpan or StepKind.RenewLoop => InTheWire,
        StepKind.RelayLayout => [CauseKind.Layout],
        StepKind.RecodeStation => [CauseKind.Crosstalk],
        StepKind.ServiceReceiver => [CauseKind.Receiver],
        StepKind.ServiceDrive => [CauseKind.Drive],
        StepKind.SwapEnds => [CauseKind.EndsSwapped],
        StepKind.CleanContacts or StepKind.ReplaceBattery => [CauseKind.Charging],
        StepKind.AskMaker => [CauseKind.Unmodelled],
        _ => throw new ArgumentOutOfRangeException(nameof(repair), repair, "Not a repair."),
    };

    private static int LastIndex(IReadOnlyList<Observation> all, int end, Func<Observation, bool> wanted)
    {
        int i = end - 1;
        while (i >= 0 && !wanted(all[i]))
        {
            i--;
        }

        return i;
    }
}
