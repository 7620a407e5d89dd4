namespace Swardloop.Core.Conductors;

/// <summary>Maximum resistances of IEC 60228:2004, tables 1 to 3: at 20 °C, for classes 1, 2 and 5.</summary>
/// <remarks>These are limits: a conductor of exactly the nominal area reads 4–7 % less than the limit of classes 1 and 2.</remarks>
public static class Iec60228
{
    // mm², then Ω/km: class 1 and 2 plain, the same coated, class 5 plain, class 5 coated.
    private static readonly double[][] Copper =
    [
        [0.5, 36.0, 36.7, 39.0, 40.1],
        [0.75, 24.5, 24.8, 26.0, 26.7],
        [1, 18.1, 18.2, 19.5, 20.0],
        [1.5, 12.1, 12.2, 13.3, 13.7],
        [2.5, 7.41, 7.56, 7.98, 8.21],
        [4, 4.61, 4.70, 4.95, 5.09],
        [6, 3.08, 3.11, 3.30, 3.39],
        [10, 1.83, 1.84, 1.91, 1.95],
    ];

    // The standard gives aluminium of classes 1 and 2 from 10 mm² upwards only.
    private static readonly double[][] Aluminium = [[10, 3.08]];

    /// <summary>The standard's maximum (Ω/m) at 20 °C.</summary>
    /// <param name="material">Copper or aluminium.</param>
    /// <param name="areaSquareMetres">Nominal area (m²); met within 0.1 %.</param>
    /// <param name="conductorClass">1, 2 or 5; null when not known, and then 5, the one with the higher limit.</param>
    /// <param name="coated">Whether the copper is metal-coated.</param>
    /// <returns>The limit, or null when the standard's part held here has no such conductor.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A class other than 1, 2 and 5, or an area not above 0.</exception>
    public static double? MaximumOhmsPerMetre(
        ConductorMaterial material, double areaSquareMetres, int? conductorClass = null, bool coated = false)
    {
        Guard.Positive(areaSquareMetres);
        int column = Column(material, conductorClass, coated);
        return column == 0
            ? null
            : Rows(material).FirstOrDefault(row => Math.Abs((areaSquareMetres * 1e6 / row[0]) - 1) < 1e-3) is { } found
                ? found[column] * 1e-3
                : null;
    }

    /// <summary>The standard's maximum as a multiple of the nominal conductor (resistivity through nominal area), for areas
    /// between the table's too: interpolated over the logarithm of the area, and beyond the table its nearest end.</summary>
    /// <inheritdoc cref="MaximumOhmsPerMetre"/>
    /// <returns>A factor above 1, or null for materials and classes that the standard does not hold.</returns>
    public static double? MaximumOverNominal(
        ConductorMaterial material, double areaSquareMetres, int? conductorClass = null, bool coated = false)
    {
        Guard.Positive(areaSquareMetres);
        int column = Column(material, conductorClass, coated);
        if (column == 0)
        {
            return null;
        }

        double[][] rows = Rows(material);
        double areaMm2 = areaSquareMetres * 1e6;
        int above = Array.FindIndex(rows, row => row[0] >= areaMm2);
        if (above <= 0)
        {
            return Factor(above == 0 ? rows[0] : rows[^1]);
        }

        double share = Math.Log(areaMm2 / rows[above - 1][0]) / Math.Log(rows[above][0] / rows[above - 1][0]);
        return ((1 - share) * Factor(rows[above - 1])) + (share * Factor(rows[above]));

        double Factor(double[] row) => row[column] * 1e-9 * row[0] / MaterialData.ResistivityOhmMetres(material);
    }

    private static double[][] Rows(ConductorMaterial material) => material == ConductorMaterial.Copper ? Copper : Aluminium;

    private static int Column(ConductorMaterial material, int? conductorClass, bool coated)
    {
        if (conductorClass is not (null or 1 or 2 or 5))
        {
            throw new ArgumentOutOfRangeException(nameof(conductorClass), conductorClass, "Needs class 1, 2 or 5.");
        }

        return (material, conductorClass) switch
        {
            (ConductorMaterial.Copper, 1 or 2) => coated ? 2 : 1,
            (ConductorMaterial.Copper, _) => coated ? 4 : 3,
            (ConductorMaterial.Aluminium, null or 1 or 2) => 1,
            _ => 0,
        };
    }
}
