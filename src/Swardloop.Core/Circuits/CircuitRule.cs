namespace Swardloop.Core.Circuits;

/// <summary>The rules a network must keep before it is solved.</summary>
public enum CircuitRule
{
    /// <summary>Every name has letters in it.</summary>
    NameMissing,

    /// <summary>No two elements, and no two nodes, share a name.</summary>
    NameTwice,

    /// <summary>An element joins declared nodes only.</summary>
    UnknownNode,

    /// <summary>An element's two ends are different nodes.</summary>
    SameNodeTwice,

    /// <summary>Every value is a finite number.</summary>
    NotFinite,

    /// <summary>A resistance, capacitance, inductance or input resistance is above zero; a burden or source resistance is not below it.</summary>
    NotPositive,

    /// <summary>At DC every value is real.</summary>
    NotRealAtDc,

    /// <summary>Nothing of no resistance lies across an ideal voltage source.</summary>
    ShortAcrossIdealSource,
}
