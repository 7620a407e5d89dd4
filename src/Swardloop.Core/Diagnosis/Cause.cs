namespace Swardloop.Core.Diagnosis;

/// <summary>One cause, or two at once. The lower kind stands first, so that equal pairs are equal values.</summary>
public readonly record struct Cause
{
    /// <summary>One cause, or two in any order.</summary>
    public Cause(CauseKind first, CauseKind? second = null) =>
        (First, Second) = second is { } other && other < first ? (other, first) : (first, second);

    /// <summary>The cause, or the lower of the two.</summary>
    public CauseKind First { get; }

    /// <summary>The other of two.</summary>
    public CauseKind? Second { get; }

    /// <summary>Whether the given kind is one of them.</summary>
    public bool Includes(CauseKind kind) => First == kind || Second == kind;
}
