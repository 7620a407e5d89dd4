using Swardloop.Core.Geometry;

namespace Swardloop.Core.Tests.Fields;

/// <summary>Round loop of one ampere by complete elliptic integrals: a second route to the field of many short pieces.</summary>
/// <remarks>Simpson et al., NASA report 20010038494 (2001), formulas of references B1; the integrals by the arithmetic–geometric mean (textbook).</remarks>
internal static class EllipticCircle
{
    /// <summary>Radial and vertical field (1/m) at distance rho from the axis and height z.</summary>
    public static (double Radial, double Vertical) FieldPerAmpere(double radius, double rho, double z)
    {
        double a2 = (radius * radius) + (rho * rho) + (z * z) - (2 * radius * rho), b2 = a2 + (4 * radius * rho), b = Math.Sqrt(b2);
        (double k, double e) = Integrals(1 - (a2 / b2));
        double vertical = ((((radius * radius) - (rho * rho) - (z * z)) * e) + (a2 * k)) / (2 * Math.PI * a2 * b);
        double radial = rho == 0 ? 0 : z * ((((radius * radius) + (rho * rho) + (z * z)) * e) - (a2 * k)) / (2 * Math.PI * a2 * b * rho);
        return (radial, vertical);
    }

    /// <summary>A polygon of equal sides with the circle's area, counter-clockwise.</summary>
    public static WirePath Polygon(PlanPoint centre, double radius, int sides)
    {
        double corner = radius * Math.Sqrt(2 * Math.PI / sides / Math.Sin(2 * Math.PI / sides));
        return new(Enumerable.Range(0, sides + 1).Select(i => (i % sides) * 2 * Math.PI / sides).Select(angle =>
            new PlanPoint(centre.EastMetres + (corner * Math.Cos(angle)), centre.NorthMetres + (corner * Math.Sin(angle)))));
    }

    private static (double K, double E) Integrals(double m)
    {
        double a = 1, b = Math.Sqrt(1 - m), power = 0.5, sum = m / 2;
        while (Math.Abs(a - b) > 1e-15 * a)
        {
            double c = (a - b) / 2;
            (a, b) = ((a + b) / 2, Math.Sqrt(a * b));
            power *= 2;
            sum += power * c * c;
        }

        double k = Math.PI / (2 * a);
        return (k, k * (1 - sum));
    }
}
