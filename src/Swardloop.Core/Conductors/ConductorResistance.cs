namespace Swardloop.Core.Conductors;

/// <summary>What a metre of healthy wire measures, and how thick its metal is.</summary>
public static class ConductorResistance
{
    /// <summary>How far a drawn wire's area may depart from its name: ±1 % in diameter, so ±2 % in area. From memory of
    /// common wire standards.</summary>
    private const double AreaTolerance = 0.02;

    /// <summary>How much longer a strand is than its cable: adds about 2 %. Source: ASTM B8, from memory.</summary>
    private const double StrandLay = 0.02;

    /// <summary>How much a given resistance may exceed what a healthy wire measures: it may be the standard's maximum, which
    /// healthy wire undercuts by 4–7 %; the middle is taken. Common practice, no source.</summary>
    private const double GivenMayBeMaximum = 0.05;

    /// <summary>How far the standard's maximum for clad wire lies above its class: 20.6 % IACS in a table headed 21 %. Computed from
    /// ASTM B869-04, table 1.</summary>
    private const double CladMaximum = 0.02;

    /// <summary>Resistance of one metre of healthy wire (Ω/m), d.c.</summary>
    /// <param name="conductor">The wire, as the yard file names it: exactly one of area, gauge and resistance is given.</param>
    /// <param name="temperatureCelsius">Its temperature (°C), −60 to 150.</param>
    /// <returns>
    /// Nominal: resistivity through the named area, or the resistance given.
    /// By area: low 2 % less (drawn to the thick side), high the maximum of IEC 60228 — of class 5 when the class is not known.
    /// By gauge: low 2 % less; high 4 % more (thin side, and the lay of strands).
    /// Clad: low 2 % less; high 4 % more (thin side, and the standard's maximum 2 % above the class's conductivity, as the table of
    /// ASTM B869 shows). Given per kilometre: low 5 % less, as the figure may be a maximum; high 2 % more.
    /// </returns>
    /// <exception cref="ArgumentException">None, or more than one, of area, gauge and resistance; a clad wire without its conductivity.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range, or not a number.</exception>
    public static ResistanceBand OhmsPerMetre(Conductor conductor, double temperatureCelsius)
    {
        ResistanceBand at20 = OhmsPerMetreAt20C(conductor);
        return MaterialData.TemperatureFactor(conductor.Material, temperatureCelsius) * at20;
    }

    /// <summary>Radius of a round wire of the conductor's section of metal (m). Where only the resistance is given, of the section
    /// that its resistivity implies; clad wires then need their conductivity, or are taken as 40 % (steel) or 63 % (aluminium) of copper.</summary>
    /// <inheritdoc cref="OhmsPerMetre" path="/param[@name='conductor']"/>
    /// <inheritdoc cref="OhmsPerMetre" path="/exception"/>
    public static double RadiusMetres(Conductor conductor)
    {
        RequireOne(conductor);
        double area = conductor.AreaSquareMetres
            ?? (conductor.Awg is int awg
                ? WireGauge.AreaSquareMetres(awg)
                : MaterialData.ResistivityOhmMetres(conductor.Material, conductor.ConductivityShareIacs ?? UsualShare(conductor.Material))
                    / conductor.OhmsPerMetreAt20C!.Value);
        Guard.Positive(area, nameof(conductor));
        return Math.Sqrt(area / Math.PI);
    }

    private static ResistanceBand OhmsPerMetreAt20C(Conductor conductor)
    {
        RequireOne(conductor);
        if (conductor.OhmsPerMetreAt20C is double given)
        {
            Guard.Positive(given, nameof(conductor));
            return given * new ResistanceBand(1 - GivenMayBeMaximum, 1, 1 + AreaTolerance);
        }

        double resistivity = MaterialData.ResistivityOhmMetres(conductor.Material, conductor.ConductivityShareIacs);
        if (conductor.Awg is int awg)
        {
            return resistivity / WireGauge.AreaSquareMetres(awg)
                * new ResistanceBand(1 - AreaTolerance, 1, 1 + AreaTolerance + StrandLay);
        }

        double area = conductor.AreaSquareMetres!.Value;
        Guard.Positive(area, nameof(conductor));
        double high = Iec60228.MaximumOverNominal(conductor.Material, area, conductor.ConductorClass, conductor.Coated)
            ?? (1 + AreaTolerance + CladMaximum);
        return resistivity / area * new ResistanceBand(1 - AreaTolerance, 1, high);
    }

    private static double? UsualShare(ConductorMaterial material) => material switch
    {
        ConductorMaterial.CopperCladSteel => 0.40,
        ConductorMaterial.CopperCladAluminium => 0.63,
        _ => null,
    };

    private static void RequireOne(Conductor conductor)
    {
        int given = (conductor.AreaSquareMetres is null ? 0 : 1) + (conductor.Awg is null ? 0 : 1) + (conductor.OhmsPerMetreAt20C is null ? 0 : 1);
        if (given != 1)
        {
            throw new ArgumentException("Needs exactly one of area, gauge and resistance per metre.", nameof(conductor));
        }
    }
}
