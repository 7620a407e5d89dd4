namespace Swardloop.Core.Circuits.Earth;

/// <summary>What probes in the lawn's surface read, in uniform soil.</summary>
public static class EarthSurvey
{
    /// <summary>Potential of the surface against remote earth (V), at a distance from the place above a leak.</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="amperes">Current that leaves the wire there (A), signed.</param>
    /// <param name="depthMetres">The leak's depth (m), above 0.</param>
    /// <param name="distanceMetres">Distance along the surface (m).</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>ρI/(2π√(x² + h²)), a point source. Source: image method, textbooks (from memory).</remarks>
    public static double SurfaceVolts(double soilOhmMetres, double amperes, double depthMetres, double distanceMetres)
    {
        Guard.Positive(soilOhmMetres);
        Guard.Finite(amperes);
        Guard.Positive(depthMetres);
        Guard.Finite(distanceMetres);
        return soilOhmMetres * amperes / (2 * Math.PI * Math.Sqrt((distanceMetres * distanceMetres) + (depthMetres * depthMetres)));
    }

    /// <summary>What a voltmeter between two probes on a line through the leak reads (V): the first probe's potential less the second's. Zero with the leak
    /// midway: the sign tells on which side it lies.</summary>
    /// <param name="soilOhmMetres">Soil's resistivity (Ω·m), above 0.</param>
    /// <param name="amperes">Current that leaves the wire (A), signed.</param>
    /// <param name="depthMetres">The leak's depth (m), above 0.</param>
    /// <param name="firstProbeMetres">First probe's place on the line, the leak's being 0 (m).</param>
    /// <param name="stepMetres">From the first probe to the second (m), signed.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>Source: definition; MIL-HDBK-419A, volume 1, section 2.8.1.2.</remarks>
    public static double StepVolts(
        double soilOhmMetres, double amperes, double depthMetres, double firstProbeMetres, double stepMetres) =>
        SurfaceVolts(soilOhmMetres, amperes, depthMetres, firstProbeMetres)
        - SurfaceVolts(soilOhmMetres, amperes, depthMetres, firstProbeMetres + stepMetres);

    /// <summary>Soil's resistivity from four probes in a row, evenly spaced (Ω·m).</summary>
    /// <param name="spacingMetres">From probe to probe (m), above 0.</param>
    /// <param name="ohms">Volts between the inner two per ampere through the outer two (Ω), above 0.</param>
    /// <param name="probeDepthMetres">How deep the probes stand (m), 0 or more; 0 gives the plain 2πaR.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    /// <remarks>4πaR/[1 + 2a/√(a² + 4b²) − a/√(a² + b²)]. Source: IEEE Std 81 (from memory); plain form ASTM G57.</remarks>
    public static double WennerOhmMetres(double spacingMetres, double ohms, double probeDepthMetres = 0)
    {
        Guard.Positive(spacingMetres);
        Guard.Positive(ohms);
        Guard.NotNegative(probeDepthMetres);
        double a = spacingMetres, b = probeDepthMetres;
        return 4 * Math.PI * a * ohms / (1 + (2 * a / Math.Sqrt((a * a) + (4 * b * b))) - (a / Math.Sqrt((a * a) + (b * b))));
    }
}
