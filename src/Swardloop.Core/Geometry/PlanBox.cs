namespace Swardloop.Core.Geometry;

/// <summary>A box along the axes of a plan (m).</summary>
internal readonly record struct PlanBox(double LeastEast, double LeastNorth, double MostEast, double MostNorth)
{
    /// <summary>Holds nothing; it lies infinitely far away.</summary>
    public static PlanBox Empty { get; } = new(
        double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    /// <summary>Round a straight piece.</summary>
    public static PlanBox Round(PlanPoint a, PlanPoint b) => new(
        Math.Min(a.EastMetres, b.EastMetres), Math.Min(a.NorthMetres, b.NorthMetres),
        Math.Max(a.EastMetres, b.EastMetres), Math.Max(a.NorthMetres, b.NorthMetres));

    /// <summary>Round both.</summary>
    public static PlanBox Union(PlanBox a, PlanBox b) => new(
        Math.Min(a.LeastEast, b.LeastEast), Math.Min(a.LeastNorth, b.LeastNorth),
        Math.Max(a.MostEast, b.MostEast), Math.Max(a.MostNorth, b.MostNorth));

    /// <summary>Whether they touch, to <see cref="PieceTree.TouchMetres"/>.</summary>
    public bool Touches(in PlanBox other) =>
        LeastEast <= other.MostEast + PieceTree.TouchMetres && other.LeastEast <= MostEast + PieceTree.TouchMetres
        && LeastNorth <= other.MostNorth + PieceTree.TouchMetres && other.LeastNorth <= MostNorth + PieceTree.TouchMetres;

    /// <summary>Distance of a point squared (m²); 0 inside.</summary>
    public double SquaredDistanceTo(PlanPoint p)
    {
        double east = Math.Max(0, Math.Max(LeastEast - p.EastMetres, p.EastMetres - MostEast));
        double north = Math.Max(0, Math.Max(LeastNorth - p.NorthMetres, p.NorthMetres - MostNorth));
        return (east * east) + (north * north);
    }
}
