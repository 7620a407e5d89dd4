namespace Swardloop.Core.Circuits.Earth;

/// <summary>Resistance to remote earth of bare metal in uniform soil.</summary>
public static class EarthContact
{
    /// <summary>A half-ball in the surface (Ω): a stripped spot, seen from a few radii away.</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="radiusMetres">Its radius (m), above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>ρ/(2πa), exact. Source: Dwight, Electrical Engineering 55, 1319 (1936); IEEE Std 142, table 13.</remarks>
    public static double HemisphereOhms(double soilOhmMetres, double radiusMetres)
    {
        Guard.Positive(soilOhmMetres);
        Guard.Positive(radiusMetres);
        return soilOhmMetres / (2 * Math.PI * radiusMetres);
    }

    /// <summary>A ball buried under the surface (Ω).</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="radiusMetres">Its radius (m), above 0.</param>
    /// <param name="depthMetres">Depth of its centre (m), at least the radius.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>ρ/(4π)·(1/a + 1/(2h)). Source: one image in the surface, textbooks (from memory). Good to about (a/2h)².</remarks>
    public static double SphereOhms(double soilOhmMetres, double radiusMetres, double depthMetres)
    {
        Guard.Positive(soilOhmMetres);
        Guard.Positive(radiusMetres);
        RequireAtLeast(depthMetres, radiusMetres, nameof(depthMetres));
        return soilOhmMetres / (4 * Math.PI) * ((1 / radiusMetres) + (1 / (2 * depthMetres)));
    }

    /// <summary>A rod driven from the surface (Ω): a test stake.</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="lengthMetres">Length in the soil (m), at least twice the diameter.</param>
    /// <param name="diameterMetres">Diameter (m), above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>ρ/(2πL)·[ln(8L/d) − 1]. Source: Dwight (1936), as above.</remarks>
    public static double RodOhms(double soilOhmMetres, double lengthMetres, double diameterMetres)
    {
        Guard.Positive(soilOhmMetres);
        Guard.Positive(diameterMetres);
        RequireAtLeast(lengthMetres, 2 * diameterMetres, nameof(lengthMetres));
        return soilOhmMetres / (2 * Math.PI * lengthMetres) * (Math.Log(8 * lengthMetres / diameterMetres) - 1);
    }

    /// <summary>A bare piece of level buried wire (Ω), of any length down to a few radii.</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="lengthMetres">Bare length (m), above 0.</param>
    /// <param name="radiusMetres">Wire's radius (m), above 0.</param>
    /// <param name="depthMetres">Depth (m), at least the radius.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>ρ/(4π)·[g(a) + g(2h)], g(d) = (2/l²)[l·asinh(l/d) − √(l² + d²) + d]: even leakage, mean potential. Source: Howe's method;
    /// Sunde, Earth Conduction Effects (1949), from memory. The better known series of Dwight (1936) holds only for lengths well above the depth:
    /// for 2 cm of wire at 5 cm it gives 15.6 kΩ where this gives 2.65 kΩ. For a patch of a few radii sound formulas differ by some 4 %.</remarks>
    public static double WireOhms(double soilOhmMetres, double lengthMetres, double radiusMetres, double depthMetres)
    {
        Guard.Positive(soilOhmMetres);
        Guard.Positive(lengthMetres);
        Guard.Positive(radiusMetres);
        RequireAtLeast(depthMetres, radiusMetres, nameof(depthMetres));
        return soilOhmMetres / (4 * Math.PI) * (MeanInverseDistance(lengthMetres, radiusMetres) + MeanInverseDistance(lengthMetres, 2 * depthMetres));
    }

    // Mean of 1/distance between two parallel lines of one length, side by side at a spacing (1/m). The root less the spacing is taken as a
    // quotient, because its digits cancel when the spacing is the larger.
    private static double MeanInverseDistance(double length, double spacing)
    {
        double root = Math.Sqrt((length * length) + (spacing * spacing));
        return 2 / length * (Math.Asinh(length / spacing) - (length / (root + spacing)));
    }

    private static void RequireAtLeast(double value, double least, string name)
    {
        if (!(value >= least && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(name, value, $"Needs {least} m or more.");
        }
    }
}
