namespace Swardloop.Core.Conductors;

/// <summary>Properties of conductor metals at 20 °C.</summary>
public static class MaterialData
{
    /// <summary>Resistivity of annealed copper, 100 % IACS (Ω·m): 1/58 Ω·mm²/m. Source: IEC 60028:1925.</summary>
    public const double AnnealedCopperOhmMetres = 1e-6 / 58;

    /// <summary>Resistivity of conductor-grade aluminium (Ω·m): 1/34.80 Ω·mm²/m, 60 % IACS. Source: Industrial Power
    /// Engineering and Applications Handbook, p. 970. IEC 60889 hard-drawn wire (61 % IACS, from memory) lies 1.6 % below.</summary>
    public const double AluminiumOhmMetres = 1e-6 / 34.80;

    /// <summary>Resistivity at 20 °C of the whole section (Ω·m).</summary>
    /// <param name="material">The metal.</param>
    /// <param name="conductivityShareIacs">For clad wires: conductivity as a share of annealed copper, above 0 and at most 1
    /// (ASTM B566 copper-clad aluminium: 0.629 and 0.644; ASTM B910 copper-clad steel: 0.21, 0.30, 0.40, 0.70). For plain
    /// copper and aluminium it may be given too and then replaces the usual value.</param>
    /// <exception cref="ArgumentException">A clad wire without its share: there is no usual value.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A share not above 0 or beyond 1.1 (pure soft copper passes 1 slightly).</exception>
    public static double ResistivityOhmMetres(ConductorMaterial material, double? conductivityShareIacs = null)
    {
        if (conductivityShareIacs is double share)
        {
            return share > 0 && share <= 1.1
                ? AnnealedCopperOhmMetres / share
                : throw new ArgumentOutOfRangeException(nameof(conductivityShareIacs), share, "Needs a share above 0, 1 for annealed copper.");
        }

        return material switch
        {
            ConductorMaterial.Copper => AnnealedCopperOhmMetres,
            ConductorMaterial.Aluminium => AluminiumOhmMetres,
            _ => throw new ArgumentException($"{material} needs its conductivity as a share of annealed copper.", nameof(conductivityShareIacs)),
        };
    }

    /// <summary>Temperature coefficient of resistance at 20 °C (1/K).</summary>
    /// <remarks>Sources: copper 0.00393, IEC 60028; aluminium 0.00403, Industrial Power Engineering and Applications Handbook,
    /// p. 970; copper-clad steel 0.00378, ASTM B193, from memory; copper-clad aluminium about 0.0040, from memory, uncertain.</remarks>
    public static double TemperatureCoefficientPerKelvin(ConductorMaterial material) => material switch
    {
        ConductorMaterial.Copper => 0.00393,
        ConductorMaterial.Aluminium => 0.00403,
        ConductorMaterial.CopperCladSteel => 0.00378,
        ConductorMaterial.CopperCladAluminium => 0.0040,
        _ => throw new ArgumentOutOfRangeException(nameof(material), material, "Not a known material."),
    };

    /// <summary>Resistance at a temperature as a share of that at 20 °C: 1 + α20·(t − 20).</summary>
    /// <param name="material">The metal.</param>
    /// <param name="temperatureCelsius">Temperature (°C), −60 to 150: the linear law's range.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range, or not a number.</exception>
    public static double TemperatureFactor(ConductorMaterial material, double temperatureCelsius) =>
        temperatureCelsius >= -60 && temperatureCelsius <= 150
            ? 1 + (TemperatureCoefficientPerKelvin(material) * (temperatureCelsius - 20))
            : throw new ArgumentOutOfRangeException(nameof(temperatureCelsius), temperatureCelsius, "Needs −60 to 150 °C.");
}
