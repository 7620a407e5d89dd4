namespace Swardloop.Core.Diagnosis;

/// <summary>A step with its parameters; those a step does not have are null.</summary>
/// <param name="Kind">Which test or repair.</param>
public sealed record Step(StepKind Kind)
{
    /// <summary>Place along the wire (m).</summary>
    public double? AtMetres { get; init; }

    /// <summary>The guide wire that its places lie on, measured from the station; null: the loop.</summary>
    public string? Wire { get; init; }

    /// <summary>Start of a stretch (m).</summary>
    public double? FromMetres { get; init; }

    /// <summary>End of a stretch (m).</summary>
    public double? ToMetres { get; init; }

    /// <summary>From which terminal.</summary>
    public WireEnd? From { get; init; }

    /// <summary>Where the mower is started.</summary>
    public StartPlace? Place { get; init; }

    /// <summary>Whether the place is beside metal (wire-crossing).</summary>
    public bool? NearMetal { get; init; }

    /// <summary>The insulation tester's voltage (V).</summary>
    public double? TestVolts { get; init; }

    /// <summary>Which guide wire, by its name in the yard.</summary>
    public string? Guide { get; init; }

    /// <summary>Whether the supply is measured while the station draws from it (supply-voltage); null and false: unplugged from it.</summary>
    public bool? Loaded { get; init; }

    /// <summary>Distance between the two stakes (m).</summary>
    public double? SpacingMetres { get; init; }

    /// <summary>Who does it.</summary>
    public Person By { get; init; } = Person.Technician;
}
