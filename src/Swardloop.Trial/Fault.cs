using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>One thing wrong in a simulated yard, as the world knows it. Places are metres along the drawn wire from terminal A.</summary>
/// <param name="Kind">What it is; never a pair.</param>
public sealed record Fault(CauseKind Kind)
{
    /// <summary>Where, for a fault in the wire. A fault in a listed joint stands at the joint's listed place; 0 and the length are the terminals.</summary>
    public double? AtMetres { get; init; }

    /// <summary>The other place of a leaking pair.</summary>
    public double? SecondAtMetres { get; init; }

    /// <summary>Series resistance, what a broken wire still passes, or the leak's resistance to earth (Ω); infinite for a clean break.</summary>
    public double Ohms { get; init; }

    /// <summary>The second leak's resistance (Ω).</summary>
    public double SecondOhms { get; init; }

    /// <summary>What the broken ends, or the corroded spot, leak to earth (Ω); infinite where they do not.</summary>
    public double SideLeakOhms { get; init; } = double.PositiveInfinity;

    /// <summary>Whether it sits in a listed joint or a terminal.</summary>
    public bool AtJoint { get; init; }

    /// <summary>Whether it can be seen by someone who looks there.</summary>
    public bool Shows { get; init; }

    /// <summary>Whether the mower minds it on its own. A single leak beside another fault is there, and harmless.</summary>
    public bool Harmful { get; init; } = true;

    /// <summary>Whether it is in the wire.</summary>
    public bool InWire => AtMetres is not null;
}
