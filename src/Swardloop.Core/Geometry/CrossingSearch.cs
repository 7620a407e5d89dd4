namespace Swardloop.Core.Geometry;

/// <summary>Finds where wires or rings cross: pass through each other, not merely touch.</summary>
/// <remarks>
/// Not crossings: touching at a corner or with an end; lying on each other, as the run out to an island and back does; and, since people draw
/// such runs with rounded coordinates, two pieces that run back along each other (directions opposite within 10°) and lie within
/// <see cref="RunMetres"/> of each other where they cross. Passing through exactly at a corner is a crossing; coming to a shared run from
/// one side and leaving it on the other is not looked for. Source: none; orientation tests in double precision, whose error for coordinates within
/// 10 km is below 1e-11 m against a threshold of a micrometre.
/// </remarks>
public static class CrossingSearch
{
    /// <summary>Two opposite pieces this near count as lying on each other (m).</summary>
    public const double RunMetres = 0.02;

    /// <summary>Sine of the angle up to which opposite pieces count as a run: 10°.</summary>
    private const double RunSine = 0.17364817766693;

    /// <summary>Crossings of one line with itself.</summary>
    /// <param name="line">The line.</param>
    /// <param name="most">Stops after so many.</param>
    /// <param name="effort">How much may be done, as for <see cref="PieceTree.VisitTouchingPairs"/>; what is left comes back. A line of n pieces
    /// as people draw it needs some 30 n. At 0 or below the search has given up, and what it returns may lack crossings.</param>
    /// <returns>The crossings, in no particular order.</returns>
    public static List<Crossing> Itself(PieceTree line, int most, ref long effort) => Between(line, line, most, ref effort);

    /// <summary>Crossings between two lines.</summary>
    /// <param name="first">One line.</param>
    /// <param name="second">The other.</param>
    /// <param name="most">Stops after so many.</param>
    /// <param name="effort">As for <see cref="Itself"/>.</param>
    /// <returns>The crossings, in no particular order.</returns>
    public static List<Crossing> Between(PieceTree first, PieceTree second, int most, ref long effort)
    {
        List<Crossing> found = [];
        bool itself = ReferenceEquals(first, second);
        PieceTree.VisitTouchingPairs(first, second, ref effort, (i, j) =>
        {
            if (At(first, i, second, j, itself) is PlanPoint at)
            {
                found.Add(new(at, first.CornerOf(i), second.CornerOf(j)));
            }

            return found.Count < most;
        });
        return found;
    }

    /// <summary>Where piece i of one line and piece j of another cross. A crossing at a corner belongs to the piece that starts there.</summary>
    private static PlanPoint? At(PieceTree first, int i, PieceTree second, int j, bool itself)
    {
        PlanPoint a = first.Point(i), b = first.Point(i + 1), c = second.Point(j), d = second.Point(j + 1);
        double sideC = Side(a, b, c), sideD = Side(a, b, d), sideA = Side(c, d, a), sideB = Side(c, d, b);
        if (Opposite(sideA, sideB) && Opposite(sideC, sideD))
        {
            return RunsBack(a, b, c, d) ? null : a.Towards(b, sideA / (sideA - sideB));
        }

        bool touchesA = Touches(c, d, a), touchesC = Touches(a, b, c);
        if (touchesA && touchesC && a.DistanceTo(c) <= PieceTree.TouchMetres)
        {
            return !(itself && i == j) && PassesCorner(first, i, second, j) ? a : null;
        }

        return touchesA && a.DistanceTo(d) > PieceTree.TouchMetres && PassesThrough(first, i, c, d) ? a
            : touchesC && c.DistanceTo(b) > PieceTree.TouchMetres && PassesThrough(second, j, a, b) ? c
            : null;
    }

    /// <summary>Whether a line passes, at the start of its piece, from one side of the piece from c to d to the other.</summary>
    private static bool PassesThrough(PieceTree line, int piece, PlanPoint c, PlanPoint d)
    {
        if (Before(line, piece) is not PlanPoint before)
        {
            return false; // an end of the line: it only touches
        }

        PlanPoint at = line.Point(piece), after = line.Point(piece + 1);
        return Opposite(Side(c, d, before), Side(c, d, after))
            && !RunsBack(before, at, c, d) && !RunsBack(at, after, c, d);
    }

    /// <summary>Whether two lines that share a corner cross there: the second's way in and way out lie on different sides of the first.</summary>
    private static bool PassesCorner(PieceTree first, int i, PieceTree second, int j)
    {
        if (Before(first, i) is not PlanPoint inFirst || Before(second, j) is not PlanPoint inSecond)
        {
            return false;
        }

        PlanPoint at = first.Point(i), outFirst = first.Point(i + 1), outSecond = second.Point(j + 1);
        if (RunsBack(inFirst, at, at, outSecond) || RunsBack(at, outFirst, inSecond, at)
            || SameWay(at, inFirst, inSecond) || SameWay(at, inFirst, outSecond)
            || SameWay(at, outFirst, inSecond) || SameWay(at, outFirst, outSecond))
        {
            return false; // a shared run begins or ends here
        }

        return Within(at, inFirst, outFirst, inSecond) != Within(at, inFirst, outFirst, outSecond);
    }

    /// <summary>The corner before the start of a piece; none at the start of an open line.</summary>
    private static PlanPoint? Before(PieceTree line, int piece) =>
        piece > 0 ? line.Point(piece - 1) : line.IsClosed ? line.Point(line.Count - 1) : null;

    /// <summary>Whether, turning left about <paramref name="at"/> from the direction of <paramref name="from"/>, that of <paramref name="p"/> comes before that of <paramref name="to"/>.</summary>
    private static bool Within(PlanPoint at, PlanPoint from, PlanPoint to, PlanPoint p) => Turn(at, from, p) < Turn(at, from, to);

    private static double Turn(PlanPoint at, PlanPoint from, PlanPoint to)
    {
        double angle = Math.Atan2(to.NorthMetres - at.NorthMetres, to.EastMetres - at.EastMetres)
            - Math.Atan2(from.NorthMetres - at.NorthMetres, from.EastMetres - at.EastMetres);
        return angle < 0 ? angle + (2 * Math.PI) : angle;
    }

    private static bool SameWay(PlanPoint at, PlanPoint p, PlanPoint q) =>
        Math.Abs(Cross(at, p, q)) <= PieceTree.TouchMetres * Math.Max(at.DistanceTo(p), at.DistanceTo(q)) && Dot(at, p, q) > 0;

    private static bool RunsBack(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d)
    {
        PlanPoint end = new(a.EastMetres + (d.EastMetres - c.EastMetres), a.NorthMetres + (d.NorthMetres - c.NorthMetres));
        double lengths = a.DistanceTo(b) * c.DistanceTo(d);
        return Dot(a, b, end) < 0 && Math.Abs(Cross(a, b, end)) <= RunSine * lengths
            && Math.Min(Math.Min(Math.Abs(Side(a, b, c)), Math.Abs(Side(a, b, d))), Math.Min(Math.Abs(Side(c, d, a)), Math.Abs(Side(c, d, b)))) <= RunMetres;
    }

    private static bool Touches(PlanPoint a, PlanPoint b, PlanPoint p) =>
        WirePath.NearestOnPiece(a, b, p).SquaredDistance <= PieceTree.TouchMetres * PieceTree.TouchMetres;

    private static bool Opposite(double side, double other) =>
        (side > PieceTree.TouchMetres && other < -PieceTree.TouchMetres) || (side < -PieceTree.TouchMetres && other > PieceTree.TouchMetres);

    /// <summary>Distance of p from the line through a and b (m), positive on its left.</summary>
    private static double Side(PlanPoint a, PlanPoint b, PlanPoint p) => Cross(a, b, p) / a.DistanceTo(b);

    private static double Cross(PlanPoint o, PlanPoint p, PlanPoint q) =>
        ((p.EastMetres - o.EastMetres) * (q.NorthMetres - o.NorthMetres)) - ((p.NorthMetres - o.NorthMetres) * (q.EastMetres - o.EastMetres));

    private static double Dot(PlanPoint o, PlanPoint p, PlanPoint q) =>
        ((p.EastMetres - o.EastMetres) * (q.EastMetres - o.EastMetres)) + ((p.NorthMetres - o.NorthMetres) * (q.NorthMetres - o.NorthMetres));
}
