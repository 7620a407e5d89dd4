using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Distance;
using Swardloop.Model.Lawns;

namespace Swardloop.Planning;

/// <summary>All rings of a plan, and the runs that make one wire of them.</summary>
/// <remarks>The runs are a shortest spanning tree by length, a crossing of paving counted as the metres of wire that its slot costs. In one part of the ground the shortest run between two
/// rings that the tree takes meets nothing else: a third ring in its way would be nearer to both. Source: Kruskal, Proc. AMS 7 (1956) 48 (from memory).</remarks>
internal sealed class WireTree
{
    private WireTree(List<WireRing> rings, List<WireRun> runs) => (Rings, Runs) = (rings, runs);

    /// <summary>The rings, that of the largest part first.</summary>
    public List<WireRing> Rings { get; }

    /// <summary>The runs.</summary>
    public List<WireRun> Runs { get; }

    /// <summary>Metres of slit: rings once, runs once.</summary>
    public double SlitMetres => Rings.Sum(ring => ring.Metres) + Runs.Sum(run => run.Metres);

    /// <summary>Joins the rings of a ground.</summary>
    /// <param name="space">The ground.</param>
    /// <param name="file">The lawn.</param>
    /// <param name="factory">Makes lines.</param>
    /// <param name="unreached">Receives the parts that no run reaches without leaving the lawn or passing a bed.</param>
    public static WireTree Of(WireSpace space, LawnFile file, GeometryFactory factory, List<Polygon> unreached)
    {
        List<WireRing> rings = [];
        for (int part = 0; part < space.Parts.Count; part++)
        {
            rings.Add(new(space.Parts[part].ExteriorRing, isIsland: false, part));
            rings.AddRange(space.Parts[part].InteriorRings.Select(hole => new WireRing(hole, isIsland: true, part)));
        }

        Geometry[] beds = [.. file.Lawn.Holes.Select(hole => factory.CreatePolygon([.. hole.Select(WireSpace.At), WireSpace.At(hole[0])]))];
        Geometry ground = space.Lawn.Buffer(0.01);
        Lazy<Geometry>[] widened = [.. space.Parts.Select(part => new Lazy<Geometry>(() => part.Buffer(0.01)))];
        List<(WireRun Run, double Weight)> all = [];
        for (int i = 0; i < rings.Count; i++)
        {
            for (int j = i + 1; j < rings.Count; j++)
            {
                if (Shortest(rings, i, j) is { } run)
                {
                    all.Add(run);
                }
            }
        }

        int[] group = [.. Enumerable.Range(0, rings.Count)];
        List<WireRun> taken = [];
        foreach ((WireRun run, _) in all.OrderBy(one => one.Weight))
        {
            int from = group[run.From], to = group[run.To];
            if (from != to)
            {
                taken.Add(run);
                group = [.. group.Select(g => g == to ? from : g)];
            }
        }

        // Rings of parts that hang on nothing get no wire in this plan.
        int[] reached = [.. Enumerable.Range(0, rings.Count).Where(i => group[i] == group[0])];
        unreached.AddRange(space.Parts.Where((_, part) => !reached.Any(i => rings[i].Part == part)));
        return new([.. reached.Select(i => rings[i])], [.. taken.Where(run => group[run.From] == group[0])
            .Select(run => run with { From = Array.IndexOf(reached, run.From), To = Array.IndexOf(reached, run.To) })]);

        // The nearest places of two rings; when that run crosses paving or leaves the lawn, the best of those that leave from elsewhere.
        (WireRun Run, double Weight)? Shortest(List<WireRing> of, int i, int j)
        {
            // A run from an island to another part would cross the wire round its own.
            bool sameParts = of[i].Part == of[j].Part;
            if (!sameParts && (of[i].IsIsland || of[j].IsIsland))
            {
                return null;
            }

            Coordinate[] nearest = DistanceOp.NearestPoints(of[i].Line, of[j].Line);
            (WireRun Run, double Weight)? best = Weighed(i, nearest[0], j, nearest[1]);
            bool isSought = best is { } first ? first.Weight > first.Run.Metres : !sameParts;
            (int from, int to) = of[i].Metres < of[j].Metres ? (i, j) : (j, i);
            for (double along = 0; isSought && along < of[from].Metres; along += 0.25)
            {
                Coordinate start = of[from].PlaceAt(along);
                foreach (Coordinate end in Opposite(start, of[to]))
                {
                    if (!(start.Distance(end) >= best?.Weight) && Weighed(from, start, to, end) is { } other && !(other.Weight >= best?.Weight) && MeetsOnlyItsEnds(other.Run, from, to))
                    {
                        best = other;
                    }
                }
            }

            return best;
        }

        (WireRun Run, double Weight)? Weighed(int i, Coordinate start, int j, Coordinate end)
        {
            LineString line = factory.CreateLineString([start, end]);
            bool sameLawn = rings[i].Part == rings[j].Part || space.Lawn.NumGeometries == 1;
            if (Array.Exists(beds, bed => line.Crosses(bed)) || (sameLawn && rings[i].Part != rings[j].Part && !ground.Covers(line)))
            {
                return null;
            }

            WireRun run = new(i, rings[i].Nearest(start), j, rings[j].Nearest(end), start, end);
            return (run, run.Metres + PavingMetres(line, file));
        }

        // The foot on each straight piece of the other ring, and its corners.
        static IEnumerable<Coordinate> Opposite(Coordinate start, WireRing ring)
        {
            for (int piece = 0; piece + 1 < ring.Line.NumPoints; piece++)
            {
                yield return new LineSegment(ring.Line.GetCoordinateN(piece), ring.Line.GetCoordinateN(piece + 1)).ClosestPoint(start);
            }
        }

        bool MeetsOnlyItsEnds(WireRun run, int from, int to)
        {
            Coordinate inside = new(run.Start.X + (0.001 * (run.End.X - run.Start.X)), run.Start.Y + (0.001 * (run.End.Y - run.Start.Y)));
            Coordinate before = new(run.End.X - (0.001 * (run.End.X - run.Start.X)), run.End.Y - (0.001 * (run.End.Y - run.Start.Y)));
            LineString open = factory.CreateLineString([inside, before]);
            return rings.TrueForAll(ring => !open.Intersects(ring.Line)) && (rings[from].Part != rings[to].Part || widened[rings[from].Part].Value.Covers(open));
        }
    }

    /// <summary>One lap over all rings and runs, from a place on one ring back to it.</summary>
    public List<Coordinate> Lap(int ring, double fromMetres)
    {
        List<Coordinate> path = [Rings[ring].PlaceAt(fromMetres)];
        Walk(ring, fromMetres, null, path);
        return path;
    }

    /// <summary>What crossings a line makes costs, in metres of wire.</summary>
    private static double PavingMetres(LineString line, LawnFile file) => file.Crossings.Sum(crossing =>
        line.Intersects(line.Factory.CreateLineString([.. crossing.Path.Points.Select(WireSpace.At)]))
            ? crossing.CostPerMetre * crossing.WidthMetres / (2 * file.Rules.PricePerMetre)
            : 0);

    private void Walk(int ring, double startMetres, WireRun? cameBy, List<Coordinate> path)
    {
        const double Apart = 0.1;
        WireRing walked = Rings[ring];

        // Runs in the order in which the walk comes by; of two at one corner, first the one that looks further back. None leaves where the walk begins.
        List<(WireRun Run, double Along)> leaving =
        [
            .. Runs.Where(run => run != cameBy && (run.From == ring || run.To == ring)).Select(run => run.From == ring ? run : run.Turned)
                .Where(run => cameBy is null || run != cameBy.Turned)
                .Select(run => (run, walked.Around(run.FromMetres - startMetres)))
                .OrderBy(one => Math.Round(one.Item2, 3)).ThenByDescending(one => AngleFromAhead(walked, one.run)),
        ];
        double at = 0, least = Apart;
        foreach ((WireRun run, double nearest) in leaving)
        {
            double along = Math.Clamp(nearest, least, walked.Metres - Apart);
            least = along + Apart;
            path.AddRange(walked.Between(startMetres + at, startMetres + along));
            path.Add(walked.PlaceAt(startMetres + along));
            at = along;
            int mark = path.Count;
            path.Add(run.End);
            WireRun original = Runs.Find(one => one == run || one == run.Turned)!;
            Walk(run.To, run.ToMetres, original, path);
            path.Add(path[mark - 1]);
        }

        path.AddRange(walked.Between(startMetres + at, startMetres + walked.Metres));
        path.Add(walked.PlaceAt(startMetres));
    }

    private static double AngleFromAhead(WireRing ring, WireRun run)
    {
        Coordinate at = run.Start, ahead = ring.PlaceAt(run.FromMetres + 0.05);
        double angle = Math.Atan2(run.End.Y - at.Y, run.End.X - at.X) - Math.Atan2(ahead.Y - at.Y, ahead.X - at.X);
        return angle < 0 ? angle + (2 * Math.PI) : angle;
    }
}
