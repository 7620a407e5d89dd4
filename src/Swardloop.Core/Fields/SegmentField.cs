using Swardloop.Core.Geometry;

namespace Swardloop.Core.Fields;

/// <summary>Field of one straight, thin piece of conductor in free space; soil and air are alike at signal-wire frequencies.</summary>
/// <remarks>
/// Source: Biot–Savart law integrated along the piece, textbook; this vector form: Hanson and Hirshman, Phys. Plasmas 9,
/// 4410 (2002), doi:10.1063/1.1507589, eq. for the unit-current field. With <c>r1</c>, <c>r2</c> the ways from the ends to the point and <c>d1</c>,
/// <c>d2</c> their lengths, H = I/(4π)·(r1×r2)(d1+d2)/[d1 d2 (d1 d2 + r1·r2)].
/// Beside the piece r1·r2 is negative and d1 d2 + r1·r2 cancels; there it is written |r1×r2|²/(d1 d2 − r1·r2), which does not.
/// Relative error at distance <c>d</c> from a piece of length <c>L</c>: about 1e-16·(1 + L/d), which is what rounding the
/// coordinates costs; beyond the ends, in line with the piece, a few 1e-16 whatever the distance.
/// </remarks>
public static class SegmentField
{
    /// <summary>Flux density (T) of one piece.</summary>
    /// <param name="startMetres">Where the current enters (m).</param>
    /// <param name="endMetres">Where it leaves (m). Equal to the start: the field is zero.</param>
    /// <param name="currentAmperes">Current from start to end (A); its sign is the field's.</param>
    /// <param name="pointMetres">Where the field is wanted (m).</param>
    /// <returns>Flux density (T), right-handed about the current; <see langword="null"/> on the piece itself, ends included, where a thin
    /// wire's field has no value. In line with the piece and beyond its ends the field is zero.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite.</exception>
    public static Vec3? FluxDensityTesla(Vec3 startMetres, Vec3 endMetres, double currentAmperes, Vec3 pointMetres)
    {
        Guard.Finite(currentAmperes);
        return FieldPerAmpere(startMetres, endMetres, pointMetres) is { } field
            ? PhysicalConstants.VacuumPermeability * currentAmperes * field
            : null;
    }

    /// <summary>Magnetic field for one ampere (A/m per A, that is 1/m) of one piece.</summary>
    /// <inheritdoc cref="FluxDensityTesla" path="/param"/>
    /// <returns>Field per ampere (1/m), right-handed about the way from start to end; <see langword="null"/> on the piece itself.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument is not finite.</exception>
    public static Vec3? FieldPerAmpere(Vec3 startMetres, Vec3 endMetres, Vec3 pointMetres)
    {
        Guard.Finite(startMetres);
        Guard.Finite(endMetres);
        Guard.Finite(pointMetres);
        Vec3 along = endMetres - startMetres;
        if (along == Vec3.Zero)
        {
            return Vec3.Zero;
        }

        Vec3 r1 = pointMetres - startMetres, r2 = pointMetres - endMetres;
        double d1 = r1.Length, d2 = r2.Length;
        if (!(d1 > 0 && d2 > 0))
        {
            return null;
        }

        // along × r1 equals r1 × r2, and keeps its digits when both ways are long.
        Vec3 cross = Vec3.Cross(along, r1);
        double product = d1 * d2, dot = Vec3.Dot(r1, r2), square = Vec3.Dot(cross, cross);
        if (dot >= 0)
        {
            return ((d1 + d2) / (4 * Math.PI * product * (product + dot))) * cross;
        }

        return square > 0
            ? ((d1 + d2) * (product - dot) / (4 * Math.PI * product * square)) * cross
            : null;
    }
}
