using Swardloop.Core.Geometry;

namespace Swardloop.Model.Yards;

/// <summary>The lawn that a wire encloses, for yards that draw no lawn of their own.</summary>
/// <remarks>The path, closed from B to A, is taken apart wherever it comes back to a corner it has visited (within 1 cm): what lies between is a
/// ring of its own. Runs out and back enclose nothing and fall away. The largest ring is lawn; rings inside it are islands, taken out; rings beside it are
/// lawn too. A run drawn as two wires side by side never comes back to its own corners: it stays a slit in the ring, and the island lies outside through it.
/// The winding of an island is not asked: whether the field says so too is for the reach map to show. Source: none.</remarks>
public static class LawnFromWire
{
    /// <summary>Corners nearer than this are one (m).</summary>
    private const double SameCornerMetres = 0.01;

    /// <summary>The enclosed lawn, or <see langword="null"/> when the wire encloses nothing.</summary>
    public static Lawn? Lawn(WirePath path)
    {
        List<PlanPoint[]> rings = Rings(path);
        if (rings.Count == 0)
        {
            return null;
        }

        Lawn outer = new([rings[0]], []);
        ILookup<bool, PlanPoint[]> others = rings.Skip(1).ToLookup(ring => outer.Contains(InnerPoint(ring)));
        return new Lawn(others[false].Prepend(rings[0]), others[true]);
    }

    private static double Area(PlanPoint[] ring) => Math.Abs(Core.Geometry.Lawn.SignedArea(ring));

    /// <summary>The rings the wire makes, each in the direction the wire runs, the largest first.</summary>
    internal static List<PlanPoint[]> Rings(WirePath path)
    {
        List<PlanPoint[]> rings = [];
        PlanPoint[] open = new PlanPoint[path.Points.Count];
        Dictionary<long, int> visited = []; // grid cell of a corner on the open part -> its index there
        int count = 0;
        for (int next = 0; next < path.Points.Count; next++)
        {
            PlanPoint corner = path.Points[next];
            int back = Visited(visited, corner, open);
            if (back >= 0)
            {
                Keep(rings, open, back, count);
                for (; count > back + 1; count--)
                {
                    _ = visited.Remove(Cell(open[count - 1], 0, 0));
                }
            }
            else
            {
                visited[Cell(corner, 0, 0)] = count;
                open[count++] = corner;
            }
        }

        Keep(rings, open, 0, count);
        rings.Sort((a, b) => Area(b).CompareTo(Area(a)));
        return rings;
    }

    private static void Keep(List<PlanPoint[]> rings, PlanPoint[] open, int from, int to)
    {
        PlanPoint[] ring = new PlanPoint[to - from];
        Array.Copy(open, from, ring, 0, ring.Length);
        if (ring.Length >= 3 && Area(ring) >= YardLimits.LeastAreaSquareMetres)
        {
            rings.Add(ring);
        }
    }

    private static int Visited(Dictionary<long, int> visited, PlanPoint corner, PlanPoint[] open)
    {
        for (int east = -1; east <= 1; east++)
        {
            for (int north = -1; north <= 1; north++)
            {
                if (visited.TryGetValue(Cell(corner, east, north), out int index)
                    && open[index].DistanceTo(corner) <= SameCornerMetres)
                {
                    return index;
                }
            }
        }

        return -1;
    }

    // Coordinates lie within 10 km: either half of the number is far larger than any of its cells.
    private static long Cell(PlanPoint corner, int east, int north) =>
        (((long)Math.Floor(corner.EastMetres / SameCornerMetres) + east) << 32) + (long)Math.Floor(corner.NorthMetres / SameCornerMetres) + north;

    /// <summary>A point inside a ring: half-way across it at the height of its middle-most corner gap.</summary>
    private static PlanPoint InnerPoint(PlanPoint[] ring)
    {
        double[] heights = [.. ring.Select(corner => corner.NorthMetres).Distinct().Order()];
        int widest = Enumerable.Range(0, heights.Length - 1).MaxBy(i => heights[i + 1] - heights[i]);
        double north = (heights[widest] + heights[widest + 1]) / 2;
        double[] crossings = [.. Enumerable.Range(0, ring.Length)
            .Select(i => (A: ring[i], B: ring[(i + 1) % ring.Length]))
            .Where(edge => edge.A.NorthMetres > north != edge.B.NorthMetres > north)
            .Select(edge => edge.A.Towards(edge.B, (north - edge.A.NorthMetres) / (edge.B.NorthMetres - edge.A.NorthMetres)).EastMetres)
            .Order()];
        return new((crossings[0] + crossings[1]) / 2, north);
    }
}
