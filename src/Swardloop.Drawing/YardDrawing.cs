using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Drawing;

/// <summary>A yard's shapes as they are on the drawing board: perhaps unfinished, perhaps wrong. Immutable; every edit gives another drawing.</summary>
/// <remarks>Joints and risk spots go with the wire: when corners move, each keeps its share of the way between the corners beside it. Corners of the
/// wire that lie in one place, such as both ends at the station or the mouth of a run to an island, move together.</remarks>
public sealed partial record YardDrawing
{
    /// <summary>Corners nearer than this lie in one place (m).</summary>
    public const double OnePlaceMetres = 0.01;

    /// <summary>The wire's corners from A to B; empty before it is drawn.</summary>
    public IReadOnlyList<PlanPoint> Wire { get; init; } = [];

    /// <summary>What the wire is made of; null: nobody knows.</summary>
    public Conductor? Conductor { get; init; }

    /// <summary>Rings of lawn; empty: the lawn is what the wire encloses.</summary>
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Lawn { get; init; } = [];

    /// <summary>Rings left out of the lawn.</summary>
    public IReadOnlyList<IReadOnlyList<PlanPoint>> Islands { get; init; } = [];

    /// <summary>Joints, in order along the wire.</summary>
    public IReadOnlyList<Joint> Joints { get; init; } = [];

    /// <summary>Metal.</summary>
    public IReadOnlyList<DrawnMetal> Metal { get; init; } = [];

    /// <summary>Neighbours' loops.</summary>
    public IReadOnlyList<DrawnNeighbour> Neighbours { get; init; } = [];

    /// <summary>Stretches where damage is likelier.</summary>
    public IReadOnlyList<RiskSpot> RiskSpots { get; init; } = [];

    /// <summary>The wire as a path; null before it has two corners.</summary>
    public WirePath? WirePath => Wire.Count >= 2 ? new(Wire) : null;

    /// <summary>All parts, in the order in which a list shows them.</summary>
    public IEnumerable<DrawnPart> Parts =>
        (Wire.Count > 0 ? [new DrawnPart(DrawnKind.Wire)] : Array.Empty<DrawnPart>())
        .Concat(Guides.Select((_, i) => new DrawnPart(DrawnKind.Guide, i)))
        .Concat(Lawn.Select((_, i) => new DrawnPart(DrawnKind.Lawn, i)))
        .Concat(Islands.Select((_, i) => new DrawnPart(DrawnKind.Island, i)))
        .Concat(Metal.Select((_, i) => new DrawnPart(DrawnKind.Metal, i)))
        .Concat(Neighbours.Select((_, i) => new DrawnPart(DrawnKind.Neighbour, i)))
        .Concat(Joints.Select((_, i) => new DrawnPart(DrawnKind.Joint, i)));

    /// <summary>The drawing of a yard.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="drawsLawn">Whether its lawn is drawn, rather than what the wire encloses.</param>
    public static YardDrawing Of(Yard yard, bool drawsLawn) => new()
    {
        Wire = yard.Loop.Path.Points,
        Course = yard.Loop.Course,
        CourseToleranceMetres = yard.Loop.CourseToleranceMetres,
        LengthToleranceMetres = yard.Loop.LengthToleranceMetres,
        Datum = yard.Datum,
        Conductor = yard.Loop.ConductorIsKnown ? yard.Loop.Conductor : null,
        Lawn = drawsLawn ? yard.Lawn.Rings : [],
        Islands = drawsLawn ? yard.Lawn.Holes : [],
        Joints = yard.Loop.Joints,
        Guides = [.. yard.Guides.Select(Of)],
        Metal = [.. yard.Metal.Select(metal => new DrawnMetal(metal.Kind, metal.Path.Points, metal.EarthOhms))],
        Neighbours = [.. yard.Neighbours.Select(neighbour => new DrawnNeighbour(neighbour.Path.Points, neighbour.SameCoding, neighbour.Ohms))],
        RiskSpots = yard.RiskSpots,
    };

    /// <summary>The yard with these shapes.</summary>
    /// <param name="rest">The yard that all else is taken from.</param>
    /// <returns>Null while the wire has fewer than two corners, or encloses nothing and no lawn is drawn.</returns>
    public Yard? On(Yard rest) =>
        WirePath is { } path && (Lawn.Count > 0 ? new Lawn(Lawn, Islands) : LawnFromWire.Lawn(path)) is { } lawn
            ? rest with
            {
                Datum = Datum ?? rest.Datum,
                Lawn = lawn,
                Loop = OnCourse(rest.Loop) with { Path = path, Joints = Joints, Conductor = Conductor ?? UnknownConductor.StandIn, ConductorIsKnown = Conductor is not null },
                Guides = [.. Guides.Select(Made)],
                Metal = [.. Metal.Select(metal => new MetalObject(metal.Kind, new(metal.Points), metal.EarthOhms))],
                Neighbours = [.. Neighbours.Select(neighbour => new NeighbourLoop(new(neighbour.Points), neighbour.SameCoding, neighbour.Ohms))],
                RiskSpots = RiskSpots,
            }
            : null;

    /// <summary>Corners of a part; a joint has one, its place.</summary>
    public IReadOnlyList<PlanPoint> Corners(DrawnPart part) => part.Kind switch
    {
        DrawnKind.Wire => Wire,
        DrawnKind.Lawn => Lawn[part.Index],
        DrawnKind.Island => Islands[part.Index],
        DrawnKind.Metal => Metal[part.Index].Points,
        DrawnKind.Neighbour => Neighbours[part.Index].Points,
        DrawnKind.Guide => Guides[part.Index].Points,
        _ => WirePath is { } path ? [path.PointAt(Joints[part.Index].AtMetres)] : [],
    };

    /// <summary>Whether this drawing has the part.</summary>
    public bool Has(DrawnPart part) => part.Index >= 0 && part.Index < part.Kind switch
    {
        DrawnKind.Wire => Math.Min(1, Wire.Count),
        DrawnKind.Lawn => Lawn.Count,
        DrawnKind.Island => Islands.Count,
        DrawnKind.Metal => Metal.Count,
        DrawnKind.Neighbour => Neighbours.Count,
        DrawnKind.Guide => Guides.Count,
        _ => Joints.Count,
    };

    /// <summary>Adds a part.</summary>
    /// <param name="kind">What it is; the wire replaces the one there is, and joints, guide wires and risk spots with it.</param>
    /// <param name="corners">Its corners, as many as it needs at least.</param>
    /// <exception cref="ArgumentException">Too few corners, or a joint: those are added on the wire.</exception>
    public YardDrawing WithPart(DrawnKind kind, IReadOnlyList<PlanPoint> corners)
    {
        if (kind == DrawnKind.Joint || corners.Count < new DrawnPart(kind).FewestCorners)
        {
            throw new ArgumentException($"A {kind} needs more corners than {corners.Count}.", nameof(corners));
        }

        return kind switch
        {
            DrawnKind.Wire => WithCourseDrawn() with { Wire = corners, Joints = [], Guides = [], RiskSpots = [] },
            DrawnKind.Guide => WithNewGuide(corners),
            DrawnKind.Lawn => this with { Lawn = [.. Lawn, corners] },
            DrawnKind.Island => this with { Islands = [.. Islands, corners] },
            DrawnKind.Metal => this with { Metal = [.. Metal, new(YardLimits.DefaultMetalKind, corners, YardLimits.DefaultEarthOhms)] },
            _ => this with { Neighbours = [.. Neighbours, new(corners, SameCoding: false, YardLimits.DefaultNeighbourOhms)] },
        };
    }

    /// <summary>Takes a part away; joints, guide wires and risk spots go with the wire.</summary>
    public YardDrawing WithoutPart(DrawnPart part) => part.Kind switch
    {
        DrawnKind.Wire => this with { Wire = [], Joints = [], Guides = [], RiskSpots = [] },
        DrawnKind.Guide => WithoutGuide(part.Index),
        DrawnKind.Lawn => this with { Lawn = Without(Lawn, part.Index) },
        DrawnKind.Island => this with { Islands = Without(Islands, part.Index) },
        DrawnKind.Metal => this with { Metal = Without(Metal, part.Index) },
        DrawnKind.Neighbour => this with { Neighbours = Without(Neighbours, part.Index) },
        _ => this with { Joints = Without(Joints, part.Index) },
    };

    /// <summary>Moves a corner; a joint moves to the nearest place on the wire.</summary>
    public YardDrawing WithCorner(DrawnPart part, int corner, PlanPoint to)
    {
        if (part.Kind == DrawnKind.Joint)
        {
            return WirePath is { } path ? WithJoint(part.Index, Joints[part.Index] with { AtMetres = Rounded(path.NearestTo(to).AtMetres) }) : this;
        }

        IReadOnlyList<PlanPoint> corners = Corners(part);
        PlanPoint from = corners[corner];
        return WithCorners(part, [.. corners.Select((point, i) =>
            i == corner || (part.Kind == DrawnKind.Wire && point.DistanceTo(from) <= OnePlaceMetres) ? to : point)], i => i);
    }

    /// <summary>Moves all of a part; a joint stays on the wire.</summary>
    public YardDrawing Moved(DrawnPart part, double east, double north) => part.Kind == DrawnKind.Joint
        ? WithCorner(part, 0, new(Corners(part)[0].EastMetres + east, Corners(part)[0].NorthMetres + north))
        : WithCorners(part, [.. Corners(part).Select(point => new PlanPoint(point.EastMetres + east, point.NorthMetres + north))], i => i);

    /// <summary>Puts a corner into a leg.</summary>
    /// <param name="part">Which part.</param>
    /// <param name="leg">The leg from this corner to the next.</param>
    /// <param name="at">Where.</param>
    public YardDrawing WithCornerIn(DrawnPart part, int leg, PlanPoint at)
    {
        List<PlanPoint> corners = [.. Corners(part)];
        corners.Insert(leg + 1, at);
        return WithCorners(part, corners, i => i <= leg ? i : i + 1);
    }

    /// <summary>Takes a corner away; a part that would be left with too few stays as it is.</summary>
    public YardDrawing WithoutCorner(DrawnPart part, int corner)
    {
        List<PlanPoint> corners = [.. Corners(part)];
        if (part.Kind == DrawnKind.Joint || corners.Count <= part.FewestCorners)
        {
            return this;
        }

        corners.RemoveAt(corner);
        return WithCorners(part, corners, i => i < corner ? i : i == corner ? null : i - 1);
    }

    /// <summary>Gives a leg the length that a tape measured: its far corner moves along it, and the next leg goes with it where the two stand
    /// square, so that a rectangle stays one.</summary>
    /// <param name="part">Which part.</param>
    /// <param name="leg">The leg from this corner to the next.</param>
    /// <param name="lengthMetres">Its length (m), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is not above zero.</exception>
    public YardDrawing WithLeg(DrawnPart part, int leg, double lengthMetres)
    {
        if (!(lengthMetres > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(lengthMetres), lengthMetres, "Needs more than 0 m.");
        }

        IReadOnlyList<PlanPoint> corners = Corners(part);
        int far = (leg + 1) % corners.Count;
        double length = corners[leg].DistanceTo(corners[far]);
        if (length == 0)
        {
            return this;
        }

        PlanPoint moved = corners[leg].Towards(corners[far], lengthMetres / length);
        moved = new(Rounded(moved.EastMetres), Rounded(moved.NorthMetres));
        YardDrawing changed = WithCorner(part, far, moved);
        int next = far + 1;
        if (next == corners.Count && (part.IsRing || corners[^1].DistanceTo(corners[0]) <= OnePlaceMetres))
        {
            next = part.IsRing ? 0 : 1;
        }

        bool canFollow = next < corners.Count && corners[next].DistanceTo(corners[leg]) > OnePlaceMetres
            && Math.Abs(Cosine(corners[leg], corners[far], corners[next])) < 0.02;
        return canFollow
            ? changed.WithCorner(part, next, new(
                Rounded(corners[next].EastMetres + moved.EastMetres - corners[far].EastMetres), Rounded(corners[next].NorthMetres + moved.NorthMetres - corners[far].NorthMetres)))
            : changed;
    }

    /// <summary>Adds a joint.</summary>
    /// <param name="atMetres">Place along the wire (m).</param>
    /// <param name="style">How it was made.</param>
    public YardDrawing WithJointAt(double atMetres, JointStyle style = JointStyle.Unknown) =>
        this with { Joints = Sorted([.. Joints, new(Rounded(atMetres), style)]) };

    /// <summary>Changes a joint.</summary>
    public YardDrawing WithJoint(int index, Joint joint)
    {
        int guide = Enumerable.Range(0, Guides.Count).FirstOrDefault(i => JointOf(Guides[i], except: i) == index, -1);
        YardDrawing moved = guide >= 0 && joint.AtMetres != Joints[index].AtMetres ? WithGuideJoin(guide, joint.AtMetres) : this;
        return moved with { Joints = Sorted([.. Joints.Select((old, i) => i == index ? joint : old)]) };
    }

    /// <summary>Changes metal.</summary>
    public YardDrawing WithMetal(int index, DrawnMetal metal) => this with { Metal = [.. Metal.Select((old, i) => i == index ? metal : old)] };

    /// <summary>Changes a neighbour's loop.</summary>
    public YardDrawing WithNeighbour(int index, DrawnNeighbour neighbour) =>
        this with { Neighbours = [.. Neighbours.Select((old, i) => i == index ? neighbour : old)] };

    /// <summary>Draws the lawn's edge as the wire lies, so that it no longer moves with the wire.</summary>
    /// <returns>The same drawing when the lawn is drawn already or the wire encloses nothing.</returns>
    public YardDrawing WithLawnAlongWire() =>
        Lawn.Count == 0 && WirePath is { } path && LawnFromWire.Lawn(path) is { } lawn ? this with { Lawn = lawn.Rings, Islands = lawn.Holes } : this;

    /// <summary>Calls the wire's ends by each other's names: A becomes B.</summary>
    public YardDrawing WithEndsSwapped()
    {
        if (WirePath is not { } path)
        {
            return this;
        }

        double length = path.LengthMetres;
        return this with
        {
            Wire = [.. Wire.Reverse()],
            Joints = Sorted([.. Joints.Select(joint => joint with { AtMetres = Rounded(length - joint.AtMetres) })]),
            Guides = GuidesWith(at => Rounded(length - at)),
            RiskSpots = [.. RiskSpots.Select(spot => spot with { FromMetres = Rounded(length - spot.ToMetres), ToMetres = Rounded(length - spot.FromMetres) })],
        };
    }

    /// <summary>Moves the station round a closed loop: both ends to another place on it.</summary>
    /// <param name="atMetres">The place along the wire (m) where A and B shall be.</param>
    /// <returns>The same drawing when the ends lie apart, or the place is an end.</returns>
    public YardDrawing WithStationAt(double atMetres)
    {
        if (WirePath is not { } path || Wire[0].DistanceTo(Wire[^1]) > OnePlaceMetres || !(atMetres > OnePlaceMetres && atMetres < path.LengthMetres - OnePlaceMetres))
        {
            return this;
        }

        // Beside a corner the station goes onto it: cut off, the corner would be lost.
        double length = path.LengthMetres, corner = path.CornerMetres.MinBy(one => Math.Abs(one - atMetres));
        atMetres = Math.Abs(corner - atMetres) <= OnePlaceMetres ? corner : atMetres;
        PlanPoint start = path.PointAt(atMetres);
        int after = Enumerable.Range(0, Wire.Count).First(i => path.CornerMetres[i] > atMetres + OnePlaceMetres);
        int before = Enumerable.Range(0, Wire.Count).Last(i => path.CornerMetres[i] < atMetres - OnePlaceMetres);
        double Turned(double at) => Rounded(at >= atMetres ? at - atMetres : at - atMetres + length);

        // The corner at the old station stays: whether the wire bends there is not asked.
        return this with
        {
            Wire = [start, .. Wire.Skip(after), .. Wire.Skip(1).Take(before), start],
            Joints = Sorted([.. Joints.Select(joint => joint with { AtMetres = Turned(joint.AtMetres) })]),
            Guides = GuidesWith(Turned),
            RiskSpots = [.. RiskSpots.SelectMany(spot => Cut(spot, atMetres)).Select(spot =>
                spot with { FromMetres = Turned(spot.FromMetres), ToMetres = Rounded(Turned(spot.FromMetres) + spot.ToMetres - spot.FromMetres) })],
        };
    }

    /// <summary>Lays the wire round an island: from the nearest place of the wire out, round against the wire's own sense, and back along the same line.</summary>
    /// <param name="island">Which island.</param>
    /// <returns>The same drawing when there is no wire.</returns>
    public YardDrawing WithWireRound(int island)
    {
        if (WirePath is not { } path)
        {
            return this;
        }

        IReadOnlyList<PlanPoint> ring = Islands[island];
        int nearest = Enumerable.Range(0, ring.Count).MinBy(i => path.NearestTo(ring[i]).DistanceMetres);
        double at = path.NearestTo(ring[nearest]).AtMetres;
        PlanPoint mouth = path.PointAt(at);
        mouth = new(Rounded(mouth.EastMetres), Rounded(mouth.NorthMetres));
        IEnumerable<PlanPoint> round = Enumerable.Range(0, ring.Count).Select(i => ring[(nearest + i) % ring.Count]);
        if (Core.Geometry.Lawn.SignedArea(ring) > 0 == Core.Geometry.Lawn.SignedArea(Wire) > 0)
        {
            round = round.Skip(1).Reverse().Prepend(ring[nearest]);
        }

        int leg = path.PieceAt(at);
        PlanPoint[] detour = [mouth, .. round, ring[nearest], mouth];
        double longer = new WirePath(detour).LengthMetres;
        return this with
        {
            Wire = [.. Wire.Take(leg + 1), .. detour, .. Wire.Skip(leg + 1)],
            Joints = [.. Joints.Select(joint => joint.AtMetres > at ? joint with { AtMetres = Rounded(joint.AtMetres + longer) } : joint)],
            Guides = GuidesWith(joins => joins > at ? Rounded(joins + longer) : joins),
            RiskSpots = [.. RiskSpots.SelectMany(spot => Cut(spot, at)).Select(spot =>
                spot.FromMetres >= at ? spot with { FromMetres = Rounded(spot.FromMetres + longer), ToMetres = Rounded(spot.ToMetres + longer) } : spot)],
        };
    }

    private static IEnumerable<RiskSpot> Cut(RiskSpot spot, double at) => spot.FromMetres < at && spot.ToMetres > at
        ? [spot with { ToMetres = at }, spot with { FromMetres = at }]
        : [spot];

    private static double Cosine(PlanPoint before, PlanPoint corner, PlanPoint after) =>
        (((corner.EastMetres - before.EastMetres) * (after.EastMetres - corner.EastMetres)) + ((corner.NorthMetres - before.NorthMetres) * (after.NorthMetres - corner.NorthMetres)))
        / Math.Max(before.DistanceTo(corner) * corner.DistanceTo(after), 1e-12);

    private static T[] Without<T>(IReadOnlyList<T> items, int index) => [.. items.Where((_, i) => i != index)];

    private static Joint[] Sorted(IEnumerable<Joint> joints) => [.. joints.OrderBy(joint => joint.AtMetres)];

    // Centimetres: finer than any wire is laid.
    private static double Rounded(double metres) => Math.Round(metres, 2) + 0.0;

    private YardDrawing WithCorners(DrawnPart part, IReadOnlyList<PlanPoint> corners, Func<int, int?> newIndex) => part.Kind switch
    {
        DrawnKind.Wire => Rewired(corners, newIndex),
        DrawnKind.Lawn => this with { Lawn = [.. Lawn.Select((ring, i) => i == part.Index ? corners : ring)] },
        DrawnKind.Island => this with { Islands = [.. Islands.Select((ring, i) => i == part.Index ? corners : ring)] },
        DrawnKind.Metal => WithMetal(part.Index, Metal[part.Index] with { Points = corners }),
        DrawnKind.Neighbour => WithNeighbour(part.Index, Neighbours[part.Index] with { Points = corners }),
        DrawnKind.Guide => WithGuideCorners(part.Index, corners, newIndex),
        _ => this,
    };

    private YardDrawing Rewired(IReadOnlyList<PlanPoint> corners, Func<int, int?> newIndex)
    {
        if (WirePath is not { } before || corners.Count < 2)
        {
            return this with { Wire = corners };
        }

        WirePath after = new(corners);
        Func<double, double> kept = Kept(before, after, newIndex);
        return this with
        {
            Wire = corners,
            Joints = Sorted([.. Joints.Select(joint => joint with { AtMetres = kept(joint.AtMetres) })]),
            Guides = GuidesOn(before, after, kept),
            RiskSpots = [.. RiskSpots.Select(spot => spot with { FromMetres = kept(spot.FromMetres), ToMetres = kept(spot.ToMetres) })],
        };
    }

    // Where a place along a path comes to lie when its corners move: each keeps its share of the way between the corners beside it.
    private static Func<double, double> Kept(WirePath before, WirePath after, Func<int, int?> newIndex)
    {
        List<(double Old, double New)> anchors = [.. Enumerable.Range(0, before.Points.Count)
            .Where(i => newIndex(i) is not null)
            .Select(i => (before.CornerMetres[i], after.CornerMetres[newIndex(i)!.Value]))];
        double Carried(double at)
        {
            int next = anchors.FindIndex(anchor => anchor.Old >= at);
            if (next < 0)
            {
                return at - anchors[^1].Old + anchors[^1].New;
            }

            if (next == 0)
            {
                return Math.Max(0, at - anchors[0].Old + anchors[0].New);
            }

            ((double oldFrom, double newFrom), (double oldTo, double newTo)) = (anchors[next - 1], anchors[next]);
            return oldTo > oldFrom ? newFrom + ((at - oldFrom) / (oldTo - oldFrom) * (newTo - newFrom)) : newTo;
        }

        return at =>
        {
            double carried = Carried(at);
            return Math.Abs(carried - at) < 1e-9 ? at : Rounded(carried);
        };
    }
}
