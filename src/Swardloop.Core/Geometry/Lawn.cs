namespace Swardloop.Core.Geometry;

/// <summary>The grass to be mown: outer rings less holes, in plan metres. Rings are closed implicitly. Immutable.</summary>
public sealed class Lawn
{
    /// <summary>Makes a lawn of simple rings; whether they cross is checked where files are read.</summary>
    /// <param name="rings">Outer rings, each at least three corners.</param>
    /// <param name="holes">Rings left out: islands, beds, ponds.</param>
    /// <exception cref="ArgumentException">No ring, or a ring of fewer than three corners.</exception>
    public Lawn(IEnumerable<IReadOnlyList<PlanPoint>> rings, IEnumerable<IReadOnlyList<PlanPoint>> holes)
    {
        Rings = [.. rings];
        Holes = [.. holes];
        if (Rings.Count == 0)
        {
            throw new ArgumentException("A lawn needs at least one ring.", nameof(rings));
        }

        if (Rings.Concat(Holes).Any(ring => ring.Count < 3))
        {
            throw new ArgumentException("A ring needs at least three corners.", nameof(rings));
        }
    }

    /// <summary>Outer rings.</summary>
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Rings { get; }

    /// <summary>Rings left out of the lawn.</summary>
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Holes { get; }

    /// <summary>Area (m²): outer rings less holes.</summary>
    public double AreaSquareMetres =>
        Area(Rings) - Area(Holes);

    /// <summary>South-west and north-east corners of the box round all rings.</summary>
    public (PlanPoint SouthWest, PlanPoint NorthEast) Bounds
    {
        get
        {
            PlanPoint southWest = Rings[0][0], northEast = southWest;
            foreach (IReadOnlyList<PlanPoint> ring in Rings)
            {
                for (int i = 0; i < ring.Count; i++)
                {
                    PlanPoint corner = ring[i];
                    southWest = new(Math.Min(southWest.EastMetres, corner.EastMetres), Math.Min(southWest.NorthMetres, corner.NorthMetres));
                    northEast = new(Math.Max(northEast.EastMetres, corner.EastMetres), Math.Max(northEast.NorthMetres, corner.NorthMetres));
                }
            }

            return (southWest, northEast);
        }
    }

    /// <summary>Whether a place is on the lawn: inside a ring and in no hole. On an edge, either answer may come.</summary>
    public bool Contains(PlanPoint point) =>
        Rings.Any(ring => Inside(ring, point)) && !Holes.Any(hole => Inside(hole, point));

    /// <summary>Twice-halved shoelace sum (m²): positive when the ring runs counter-clockwise seen from above.</summary>
    public static double SignedArea(IReadOnlyList<PlanPoint> ring)
    {
        double sum = 0;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            sum += (ring[j].EastMetres * ring[i].NorthMetres) - (ring[i].EastMetres * ring[j].NorthMetres);
        }

        return sum / 2;
    }

    private static double Area(IReadOnlyList<IReadOnlyList<PlanPoint>> rings)
    {
        double sum = 0;
        foreach (IReadOnlyList<PlanPoint> ring in rings)
        {
            sum += Math.Abs(SignedArea(ring));
        }

        return sum;
    }

    /// <summary>Whether a place lies within a ring, by how often a line from it crosses the ring.</summary>
    internal static bool Inside(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        bool inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            PlanPoint a = ring[i], b = ring[j];
            if (a.NorthMetres > p.NorthMetres != b.NorthMetres > p.NorthMetres
                && p.EastMetres < ((b.EastMetres - a.EastMetres) * (p.NorthMetres - a.NorthMetres) / (b.NorthMetres - a.NorthMetres)) + a.EastMetres)
            {
                inside = !inside;
            }
        }

        return inside;
    }
}
