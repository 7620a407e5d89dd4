namespace Swardloop.Core.Diagnosis;

/// <summary>One cause's hypotheses that are still to be mended, and the weight of those that a repair has ended.</summary>
/// <param name="cause">The cause.</param>
/// <param name="leastKept">Hypotheses of less weight count in <see cref="Weight"/> but are not kept; infinity: none is.</param>
internal sealed class FaultGroup(Cause cause, double leastKept)
{
    private readonly SortedDictionary<int, double> _ended = [];
    private double _standing;

    public Cause Cause { get; } = cause;

    public List<FaultAtom> Atoms { get; } = [];

    /// <summary>Weight of "it was this, and it is mended".</summary>
    public double Mended => _ended.Sum(one => one.Value);

    /// <summary>The same of what a repair, or one before it, has ended.</summary>
    public double MendedBy(int repair) => _ended.Where(one => one.Key <= repair).Sum(one => one.Value);

    public double Weight => Mended + _standing;

    /// <summary>Adds what is still to be mended.</summary>
    public void Add(double weight, in Part first, in Part? second = null)
    {
        _standing += weight;
        if (weight > leastKept)
        {
            Atoms.Add(new() { Weight = weight, First = first, Second = second });
        }
    }

    /// <summary>Adds two faults of which each is still there or was ended by a repair.</summary>
    /// <param name="weight">Their weight.</param>
    /// <param name="first">One; null: it was ended, or need not be mended.</param>
    /// <param name="second">The other; null: it was ended.</param>
    /// <param name="until">Index of the repair that ended the last of them, where neither is left.</param>
    public void AddTwo(double weight, in Part? first, in Part? second, int until)
    {
        if ((first ?? second) is { } left)
        {
            Add(weight, left, first is null ? null : second);
        }
        else
        {
            End(weight, until);
        }
    }

    /// <summary>Adds what a repair has ended.</summary>
    /// <param name="weight">Its weight.</param>
    /// <param name="until">Index of the repair; of two, of the later.</param>
    public void End(double weight, int until) => _ended[until] = _ended.GetValueOrDefault(until) + weight;

    public void Scale(double factor)
    {
        foreach (int until in _ended.Keys.ToArray())
        {
            _ended[until] *= factor;
        }

        _standing *= factor;
        for (int i = 0; i < Atoms.Count; i++)
        {
            Atoms[i] = Atoms[i] with { Weight = Atoms[i].Weight * factor };
        }
    }
}

/// <summary>Size of a fault: where a sixth, half and five sixths of its probability lie below (Ω).</summary>
internal readonly record struct SizeSpread(double LowOhms, double MiddleOhms, double HighOhms)
{
    /// <summary>A dry break.</summary>
    public static SizeSpread Infinite { get; } = At(double.PositiveInfinity);

    /// <summary>A size known well.</summary>
    public static SizeSpread At(double ohms) => new(ohms, ohms, ohms);

    /// <summary>Of weights over a grid's finite bins; the grid's first centre when there is no weight.</summary>
    public static SizeSpread Of(SizeGrid sizes, double[] weights)
    {
        double all = weights.Sum();
        return all > 0 ? new(Quantile(1 / 6.0), Quantile(0.5), Quantile(5 / 6.0)) : At(sizes.Centre[0]);

        double Quantile(double share)
        {
            double below = 0;
            for (int j = 0; j < weights.Length; j++)
            {
                if (below + weights[j] >= share * all && weights[j] > 0)
                {
                    double inside = ((share * all) - below) / weights[j];
                    return sizes.Low[j] * Math.Pow(sizes.High[j] / sizes.Low[j], Math.Clamp(inside, 0, 1));
                }

                below += weights[j];
            }

            return sizes.Centre[^1];
        }
    }
}

/// <summary>One fault: its kind and, for faults of the wire, its place and size.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="Place">Where in the wire.</param>
/// <param name="PlaceIndex">The place's index; −1: none.</param>
/// <param name="Size">Its size.</param>
/// <param name="Wet">Whether a break still conducts.</param>
/// <param name="Shown">What it looks like, where the kind alone does not say.</param>
internal readonly record struct Part(CauseKind Kind, Place Place = default, int PlaceIndex = -1, SizeSpread Size = default, bool Wet = false, Condition Shown = default)
{
    public bool IsInWire => Kind is CauseKind.SeriesResistance or CauseKind.Open or CauseKind.Leak or CauseKind.LeakPair or CauseKind.Unsteady or CauseKind.ShortCircuit;

    public Condition Condition => Shown.Present != 0 ? Shown : ConditionOf(Kind, Size.MiddleOhms);

    /// <summary>What a fault of a size does to the loop; a short takes away what its size says.</summary>
    private static Condition ConditionOf(CauseKind kind, double ohms) => Condition.Of(kind, kind switch
    {
        CauseKind.SeriesResistance or CauseKind.Open => ohms,
        CauseKind.ShortCircuit => -ohms,
        _ => 0,
    });
}

/// <summary>One hypothesis as it stands now: what is still broken, and its weight.</summary>
internal readonly record struct FaultAtom
{
    public required double Weight { get; init; }

    public required Part First { get; init; }

    /// <summary>The other of two; for two leaks, the other leak.</summary>
    public Part? Second { get; init; }

    /// <summary>What is still wrong, as a cause.</summary>
    public Cause Cause => new(First.Kind, Second is { Kind: not CauseKind.LeakPair and var other } ? other : null);

    public Condition Condition => Second is { } second && second.Kind != CauseKind.LeakPair ? First.Condition.With(second.Condition) : First.Condition;
}
