namespace Swardloop.Core.Geometry;

/// <summary>A place in the yard's plan, in metres east and north of the yard's datum.</summary>
/// <param name="EastMetres">Metres east.</param>
/// <param name="NorthMetres">Metres north.</param>
public readonly record struct PlanPoint(double EastMetres, double NorthMetres)
{
    /// <summary>Straight distance to another place (m).</summary>
    public double DistanceTo(PlanPoint other) =>
        Math.Sqrt(SquaredDistanceTo(other));

    /// <summary>Square of the straight distance (m²), for comparisons.</summary>
    public double SquaredDistanceTo(PlanPoint other)
    {
        double east = EastMetres - other.EastMetres, north = NorthMetres - other.NorthMetres;
        return (east * east) + (north * north);
    }

    /// <summary>The point a share <paramref name="share"/> of the way to another: 0 here, 1 there.</summary>
    public PlanPoint Towards(PlanPoint other, double share) =>
        new(EastMetres + (share * (other.EastMetres - EastMetres)), NorthMetres + (share * (other.NorthMetres - NorthMetres)));
}
