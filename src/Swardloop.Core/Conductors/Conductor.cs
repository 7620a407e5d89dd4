namespace Swardloop.Core.Conductors;

/// <summary>The loop's conductor as the yard file names it: by area, by gauge, or by a measured resistance per kilometre.</summary>
public sealed record Conductor
{
    /// <summary>Material. Default copper.</summary>
    public ConductorMaterial Material { get; init; } = ConductorMaterial.Copper;

    /// <summary>Cross-section of metal (m²), when given by area; <see langword="null"/> when given otherwise.</summary>
    public double? AreaSquareMetres { get; init; }

    /// <summary>American wire gauge, when given by gauge.</summary>
    public int? Awg { get; init; }

    /// <summary>Resistance at 20 °C (Ω/m), when given outright.</summary>
    public double? OhmsPerMetreAt20C { get; init; }

    /// <summary>Conductivity as a share of annealed copper (0 to 1), for clad wires.</summary>
    public double? ConductivityShareIacs { get; init; }

    /// <summary>IEC 60228 class (1, 2 or 5), when known.</summary>
    public int? ConductorClass { get; init; }

    /// <summary>Whether the copper strands are metal-coated (IEC 60228).</summary>
    public bool Coated { get; init; }
}
