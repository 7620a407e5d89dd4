namespace Swardloop.Core.Conductors;

/// <summary>What a wire is made of.</summary>
public enum ConductorMaterial
{
    /// <summary>Annealed copper.</summary>
    Copper,

    /// <summary>Aluminium, conductor grade.</summary>
    Aluminium,

    /// <summary>Copper-clad steel; needs its conductivity class.</summary>
    CopperCladSteel,

    /// <summary>Copper-clad aluminium; needs its conductivity class.</summary>
    CopperCladAluminium,
}
