namespace Swardloop.Core;

/// <summary>Constants of nature used by the computing core.</summary>
public static class PhysicalConstants
{
    /// <summary>Magnetic constant μ0 (H/m), taken as 4π·10⁻⁷: the value the reference tables use.
    /// CODATA 2022 differs from it by 1.3e-10, relative.</summary>
    public const double VacuumPermeability = 4e-7 * Math.PI;

    /// <summary>Speed of light in vacuum (m/s), exact by definition of the metre.</summary>
    public const double SpeedOfLight = 299_792_458;
}
