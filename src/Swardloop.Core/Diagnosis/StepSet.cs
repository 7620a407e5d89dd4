using System.Numerics;

namespace Swardloop.Core.Diagnosis;

/// <summary>Some steps of the catalogue, without order. Immutable; sets of the same steps are equal.</summary>
public readonly record struct StepSet
{
    private readonly ulong _kinds; // One bit for each kind: 64 are more than the catalogue has.

    private StepSet(ulong kinds) => _kinds = kinds;

    /// <summary>None.</summary>
    public static StepSet Empty => default;

    /// <summary>How many.</summary>
    public int Count => BitOperations.PopCount(_kinds);

    /// <summary>Them, in the catalogue's order.</summary>
    public IEnumerable<StepKind> Kinds
    {
        get
        {
            StepSet set = this;
            return Enum.GetValues<StepKind>().Where(set.Contains);
        }
    }

    /// <summary>The set of some steps; one named twice is in it once.</summary>
    public static StepSet Of(params IEnumerable<StepKind> kinds) =>
        kinds.Aggregate(Empty, (set, kind) => new(set._kinds | (1UL << (int)kind)));

    /// <summary>Whether the step is one of them.</summary>
    public bool Contains(StepKind kind) => (_kinds & (1UL << (int)kind)) != 0;
}
