namespace Swardloop.Core.Diagnosis;

/// <summary>How often each cause is met, as Dirichlet counts: stated defaults plus a workshop's own closed cases. Immutable.</summary>
public sealed record CausePriors
{
    private static readonly (CauseKind Kind, double Count)[] DefaultCounts =
    [
        (CauseKind.NoMains, 2), (CauseKind.Supply, 2), (CauseKind.Station, 1.5), (CauseKind.EndsSwapped, 1),
        (CauseKind.SeriesResistance, 12), (CauseKind.Open, 9), (CauseKind.Leak, 0.5), (CauseKind.LeakPair, 3),
        (CauseKind.Layout, 2), (CauseKind.Crosstalk, 1.5), (CauseKind.Receiver, 1), (CauseKind.Drive, 1.5),
        (CauseKind.Unsteady, 2), (CauseKind.Guide, 6), (CauseKind.ShortCircuit, 1), (CauseKind.Charging, 1), (CauseKind.Unmodelled, 1.8), (CauseKind.None, 0.4),
    ];

    private CausePriors(IReadOnlyDictionary<Cause, double> counts) => Counts = counts;

    /// <summary>The stated defaults, worth about 42 closed cases, those of a wire that a yard does not have left out. Common practice, no source: the wire is nearly always
    /// the cause; joints and broken wire lead; the mower hardly ever.</summary>
    public static CausePriors Default { get; } =
        new(DefaultCounts.ToDictionary(entry => new Cause(entry.Kind), entry => entry.Count));

    /// <summary>Dirichlet counts per cause, single or pair; a cause not listed has none of its own.</summary>
    public IReadOnlyDictionary<Cause, double> Counts { get; }

    /// <summary>The same counts with so many closed cases of one cause added.</summary>
    /// <param name="cause">What was found.</param>
    /// <param name="cases">How many; zero or more.</param>
    public CausePriors WithClosedCases(Cause cause, double cases)
    {
        Guard.NotNegative(cases);
        Dictionary<Cause, double> counts = new(Counts);
        counts[cause] = counts.GetValueOrDefault(cause) + cases;
        return new(counts);
    }
}
