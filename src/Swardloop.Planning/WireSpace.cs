using NetTopologySuite.Geometries;
using NetTopologySuite.Simplify;
using Swardloop.Core.Geometry;
using Swardloop.Model.Lawns;

namespace Swardloop.Planning;

/// <summary>The ground that a loop may enclose: the lawn less the inset of each edge, with what is too narrow for the mower taken away and bends rounded.</summary>
/// <remarks>Opening by a disc: ground that no disc of half the least distance between wires fits into is dropped, so that wires on its two sides keep that distance,
/// and what remains has no bend sharper than the disc. Source: Serra, Image Analysis and Mathematical Morphology, 1982 (from memory). Arcs are drawn by twelve
/// pieces for a right angle and simplified to 5 mm.</remarks>
internal sealed class WireSpace
{
    private const int ArcPieces = 12;
    private const double SimplifyMetres = 0.005;

    /// <summary>Less between two wires, as a share of the disc's radius squared, is the rounded tip of one corner, not two wires too near to each other: 1 − π/4 for a right angle;
    /// two bends that touch leave √3 − π/2 on each side.</summary>
    private const double LeastBetweenShare = 0.25;

    /// <summary>A disc this much smaller is sure to fit where the disc did, for all rounding of arcs (0.2 %).</summary>
    private const double FitShare = 0.99;

    /// <summary>What is taken back at one place may make another thin; three rounds do for lawns as people have them.</summary>
    private const int MostRounds = 3;

    private WireSpace(Geometry lawn, List<Polygon> parts, List<(PlanPoint Place, double SquareMetres)> dropped) => (Lawn, Parts, Dropped) = (lawn, parts, dropped);

    /// <summary>The lawn.</summary>
    public Geometry Lawn { get; }

    /// <summary>The parts of the ground, largest first; their edges are where wire lies.</summary>
    public List<Polygon> Parts { get; }

    /// <summary>Parts of the lawn that no wire goes round, with a place in each.</summary>
    public List<(PlanPoint Place, double SquareMetres)> Dropped { get; }

    /// <summary>Makes it.</summary>
    public static WireSpace Of(LawnFile file, GeometryFactory factory)
    {
        Geometry lawn = LawnOf(file.Lawn, factory);
        List<Geometry> kept = [];
        IReadOnlyList<PlanPoint>[] rings = [.. file.Lawn.Rings, .. file.Lawn.Holes];
        for (int r = 0; r < rings.Length; r++)
        {
            for (int i = 0; i < rings[r].Count; i++)
            {
                PlanPoint a = rings[r][i], b = rings[r][(i + 1) % rings[r].Count];
                kept.Add(factory.CreateLineString([At(a), At(b)]).Buffer(file.Rules.InsetMetres[(int)file.Edges[r][i]], ArcPieces));
            }
        }

        kept.AddRange(file.Neighbours.Select(neighbour => factory.CreateLineString([.. neighbour.Path.Points.Select(At)]).Buffer(file.Rules.NeighbourMetres, ArcPieces)));
        Geometry free = lawn.Difference(NetTopologySuite.Operation.Union.UnaryUnionOp.Union(kept));
        double disc = Math.Max(file.Rules.BendMetres, file.Rules.ApartMetres / 2);
        Geometry open = TopologyPreservingSimplifier.Simplify(WithoutThinGaps(Opened(free, disc), disc), SimplifyMetres);
        List<Polygon> parts = [.. Polygons(open).Where(part => part.Area >= file.Rules.LeastPartSquareMetres).OrderByDescending(part => part.Area)];

        // What is left over beyond the strip along the edges: dead ends, passages, small corners.
        double strip = file.Rules.InsetMetres.Max() + disc;
        Geometry left = parts.Count == 0 ? lawn : lawn.Difference(NetTopologySuite.Operation.Union.UnaryUnionOp.Union(parts).Buffer(strip, ArcPieces));
        List<(PlanPoint, double)> dropped = [.. Polygons(left).Where(part => part.Area > 0.5).Select(part => (PlanPointOf(part.InteriorPoint.Coordinate), part.Area))];
        return new(lawn, parts, dropped);
    }

    /// <summary>Takes ground back on both sides of a thin gap, as where a bed comes near to the edge, until the wires on its two sides are as far apart as wires must be;
    /// and on both sides of a neck.</summary>
    private static Geometry WithoutThinGaps(Geometry open, double disc)
    {
        for (int round = 0; round < MostRounds; round++)
        {
            Geometry thin = open.Buffer(disc, ArcPieces).Buffer(-disc, ArcPieces).Difference(open);
            Geometry[] between = [.. Polygons(thin).Where(piece => piece.Area > LeastBetweenShare * disc * disc), .. Necks(open, disc)];
            if (between.Length == 0)
            {
                break;
            }

            open = Opened(open.Difference(NetTopologySuite.Operation.Union.UnaryUnionOp.Union(between).Buffer(disc, ArcPieces)), disc);
        }

        return open;
    }

    /// <summary>Where discs in two rooms overlap though none fits between the rooms: opening by a disc leaves such a neck, narrower than the disc, and wires on its two sides would
    /// be too near to each other.</summary>
    private static IEnumerable<Geometry> Necks(Geometry open, double disc)
    {
        double fits = FitShare * disc;
        Geometry[] rooms = [.. Polygons(open.Buffer(-fits, ArcPieces)).Select(core => core.Buffer(fits, ArcPieces))];
        for (int i = 0; i < rooms.Length; i++)
        {
            for (int j = i + 1; j < rooms.Length; j++)
            {
                if (rooms[i].EnvelopeInternal.Intersects(rooms[j].EnvelopeInternal) && rooms[i].Intersection(rooms[j]) is { IsEmpty: false } neck)
                {
                    yield return neck;
                }
            }
        }
    }

    private static Geometry Opened(Geometry ground, double disc) => ground.Buffer(-disc, ArcPieces).Buffer(disc, ArcPieces);

    public static Coordinate At(PlanPoint point) => new(point.EastMetres, point.NorthMetres);

    public static PlanPoint PlanPointOf(Coordinate at) => new(at.X, at.Y);

    public static IEnumerable<Polygon> Polygons(Geometry geometry) =>
        Enumerable.Range(0, geometry.NumGeometries).Select(geometry.GetGeometryN).OfType<Polygon>().Where(part => !part.IsEmpty);

    private static Geometry LawnOf(Lawn lawn, GeometryFactory factory)
    {
        Geometry rings = NetTopologySuite.Operation.Union.UnaryUnionOp.Union(lawn.Rings.Select(ring => (Geometry)Ring(ring)));
        return lawn.Holes.Count == 0 ? rings : rings.Difference(NetTopologySuite.Operation.Union.UnaryUnionOp.Union(lawn.Holes.Select(hole => (Geometry)Ring(hole))));

        Polygon Ring(IReadOnlyList<PlanPoint> corners) => factory.CreatePolygon([.. corners.Select(At), At(corners[0])]);
    }
}
