using System.Numerics;

namespace Swardloop.Core.Fields;

/// <summary>How far soil under a loop bends its field: a note on where the free-space field is valid.</summary>
public static class SoilFactor
{
    /// <summary>Field at the centre of a round loop that lies on conducting ground, over the same in free space.</summary>
    /// <param name="radiusMetres">Radius of the loop (m), above zero. For a lawn of another shape take √(area/π).</param>
    /// <param name="frequencyHertz">Frequency (Hz), above zero.</param>
    /// <param name="resistivityOhmMetres">Resistivity of the ground (Ω·m), above zero.</param>
    /// <returns>H/H0: its size is what the free-space field must be multiplied by, its phase the lag. Near 1 for a loop small against the skin depth.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite or not above zero.</exception>
    /// <remarks>−2/(k²a²)·[3 − (3 + 3ika − k²a²)e^(−ika)], k² = −iωμ0/ρ. Source: Ward and Hohmann 1988, eq. 4.98 (from memory), checked
    /// by the reference tables against the integral to six digits. Below |ka| = 0.02 its series is used, because the closed form cancels: relative error under 1e-7.
    /// Valid for currents that are the same all round the loop and ground that is the same all the way down.</remarks>
    public static Complex AtLoopCentre(double radiusMetres, double frequencyHertz, double resistivityOhmMetres)
    {
        Guard.Positive(radiusMetres);
        Guard.Positive(frequencyHertz);
        Guard.Positive(resistivityOhmMetres);
        double size = 2 * Math.PI * frequencyHertz * PhysicalConstants.VacuumPermeability / resistivityOhmMetres * radiusMetres * radiusMetres;
        Complex square = new(0, -size), ka = Complex.Sqrt(square), ika = Complex.ImaginaryOne * ka;

        // With x = ika: 3 − (3 + 3x + x²)e^(−x) = x²/2 + x⁴(−1/8) + x⁵/15 − …, from the exponential's series.
        return ka.Magnitude < 0.02
            ? 1 + (square / 4) - (2 * ika * square / 15)
            : -2 / square * (3 - ((3 + (3 * ika) - square) * Complex.Exp(-ika)));
    }

    /// <summary>Depth (m) at which a field has fallen to 1/e of its value in a conducting ground or metal: √(2ρ/(ωμ0)).</summary>
    /// <param name="frequencyHertz">Frequency (Hz), above zero.</param>
    /// <param name="resistivityOhmMetres">Resistivity (Ω·m), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite or not above zero.</exception>
    /// <remarks>Source: textbook.</remarks>
    public static double SkinDepthMetres(double frequencyHertz, double resistivityOhmMetres)
    {
        Guard.Positive(frequencyHertz);
        Guard.Positive(resistivityOhmMetres);
        return Math.Sqrt(resistivityOhmMetres / (Math.PI * frequencyHertz * PhysicalConstants.VacuumPermeability));
    }
}
