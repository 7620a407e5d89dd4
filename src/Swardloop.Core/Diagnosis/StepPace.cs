namespace Swardloop.Core.Diagnosis;

/// <summary>What steps take and cost in one workshop, where it differs from the catalogue. Immutable; equal when every step's numbers are.</summary>
public sealed class StepPace : IEquatable<StepPace>
{
    private readonly SortedDictionary<StepKind, StepEffort> _own = [];

    private StepPace(IEnumerable<StepEffort> own)
    {
        foreach (StepEffort effort in own.Where(effort => !effort.IsDefault))
        {
            _own[effort.Kind] = effort;
        }
    }

    /// <summary>The catalogue's numbers for every step.</summary>
    public static StepPace Default { get; } = new([]);

    /// <summary>Steps with numbers of their own, in the catalogue's order.</summary>
    public IReadOnlyCollection<StepEffort> Own => _own.Values;

    /// <summary>A workshop's pace.</summary>
    /// <param name="own">Steps that differ from the catalogue; of two for one step the last holds.</param>
    public static StepPace With(params IEnumerable<StepEffort> own) => new(own);

    /// <summary>One step's numbers: the workshop's where it has said, the catalogue's elsewhere.</summary>
    public StepFacts Of(StepKind kind)
    {
        StepFacts facts = StepCatalogue.Of(kind);
        return !_own.TryGetValue(kind, out StepEffort? own) ? facts : facts with
        {
            Minutes = own.Minutes ?? facts.Minutes,
            MinutesPerMetre = own.MinutesPerMetre ?? facts.MinutesPerMetre,
            JointMinutes = own.JointMinutes ?? facts.JointMinutes,
            Parts = own.Parts ?? facts.Parts,
            PartsPerMetre = own.PartsPerMetre ?? facts.PartsPerMetre,
            JointParts = own.JointParts ?? facts.JointParts,
        };
    }

    /// <inheritdoc/>
    public bool Equals(StepPace? other) => other is not null && _own.Values.SequenceEqual(other._own.Values);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as StepPace);

    /// <inheritdoc/>
    public override int GetHashCode() => _own.Values.Aggregate(0, HashCode.Combine);
}

/// <summary>A workshop's own numbers for one step; null: as in the catalogue.</summary>
/// <param name="Kind">Which step.</param>
public sealed record StepEffort(StepKind Kind)
{
    /// <summary>Technician's minutes, before any length is added.</summary>
    public double? Minutes { get; init; }

    /// <summary>Minutes per metre of its length.</summary>
    public double? MinutesPerMetre { get; init; }

    /// <summary>Minutes at a known joint.</summary>
    public double? JointMinutes { get; init; }

    /// <summary>Parts, money.</summary>
    public double? Parts { get; init; }

    /// <summary>Parts per metre, money.</summary>
    public double? PartsPerMetre { get; init; }

    /// <summary>Parts at a known joint, money.</summary>
    public double? JointParts { get; init; }

    /// <summary>Whether nothing differs from the catalogue.</summary>
    public bool IsDefault => this == new StepEffort(Kind);
}
