using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Words;

/// <summary>A thing that a person can find without a tape, and where the wire passes it.</summary>
/// <param name="AtMetres">Place along the wire (m).</param>
/// <param name="Name">What to call it, article included.</param>
/// <param name="Island">Index of the detour it belongs to; −1 on the outer wire.</param>
internal sealed record Landmark(double AtMetres, string Name, int Island);

/// <summary>The wire's visit to an island: out along a link, round, and back along the link.</summary>
/// <param name="FromMetres">Where the wire turns off.</param>
/// <param name="ToMetres">Where it is back.</param>
/// <param name="LinkMetres">Length of the link, over which the wire lies double.</param>
internal sealed record Detour(double FromMetres, double ToMetres, double LinkMetres);

/// <summary>Corners, turn-offs, island corners and the station along one yard's wire, with names.
/// What a corner is, and how near is near, is common practice with no source: chosen so that a drawn rectangle, an L and
/// a tracked path with rounded corners all get the names a person would give them.</summary>
internal sealed class Landmarks
{
    /// <summary>Over how far the wire's direction is looked at, on either side of a corner (m).</summary>
    private const double SightMetres = 2;

    /// <summary>Bends this near along the wire make one rounded corner (m).</summary>
    private const double RoundedMetres = 1.5;

    /// <summary>A change of direction from here on is a corner to the eye.</summary>
    private const double CornerRadians = 50 * Math.PI / 180;

    /// <summary>Two runs of wire this near each other lie in one slot (m).</summary>
    private const double SameSlotMetres = 0.6;

    private readonly WirePath _path;
    private readonly Phrasebook _words;
    private readonly double _bearingRadians;

    public Landmarks(Yard yard, Phrasebook words)
    {
        _path = yard.Loop.Path;
        _words = words;
        _bearingRadians = (yard.Datum?.BearingDegrees ?? 0) * Math.PI / 180;
        IsCounterClockwise = Lawn.SignedArea(_path.Points) > 0;
        EndsMeet = _path.Points[0].DistanceTo(_path.Points[^1]) <= 1;

        List<Corner> corners = FindCorners();
        Detours = FindDetours(corners);
        All = [.. Ends().Concat(Named(corners)).OrderBy(landmark => landmark.AtMetres)];
    }

    /// <summary>Whether the wire runs counter-clockwise from A to B, seen from above.</summary>
    public bool IsCounterClockwise { get; }

    /// <summary>Whether both terminals are at one place, the station's.</summary>
    public bool EndsMeet { get; }

    /// <summary>Visits to islands, in order.</summary>
    public IReadOnlyList<Detour> Detours { get; }

    /// <summary>All landmarks in order along the wire.</summary>
    public IReadOnlyList<Landmark> All { get; }

    /// <summary>Index of the island visit that a place belongs to, or −1.</summary>
    public int DetourAt(double atMetres)
    {
        for (int i = 0; i < Detours.Count; i++)
        {
            if (atMetres > Detours[i].FromMetres && atMetres < Detours[i].ToMetres)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Compass word for the way from one place to another.</summary>
    public string Compass(PlanPoint from, PlanPoint to) =>
        Compass(to.EastMetres - from.EastMetres, to.NorthMetres - from.NorthMetres);

    /// <summary>What an island is called: by number only where there are several.</summary>
    public string IslandName(int detour) =>
        Detours.Count == 1 ? _words[Phrase.Island] : _words.Say(Phrase.NumberedIsland, detour + 1);

    private string Compass(double east, double north)
    {
        // A bearing runs clockwise from north; the plan's own north may be turned.
        double eighths = (Math.Atan2(east, north) + _bearingRadians) / (Math.PI / 4);
        int index = (((int)Math.Round(eighths, MidpointRounding.AwayFromZero) % 8) + 8) % 8;
        return _words[Phrase.North + index];
    }

    private IEnumerable<Landmark> Ends()
    {
        yield return new(0, _words[EndsMeet ? Phrase.Station : Phrase.TerminalA], -1);
        yield return new(_path.LengthMetres, _words[EndsMeet ? Phrase.Station : Phrase.TerminalB], -1);
    }

    private List<Corner> FindCorners()
    {
        List<Corner> candidates = [];
        for (int i = 1; i + 1 < _path.Points.Count; i++)
        {
            double at = _path.CornerMetres[i];
            if (at > Loop.JointReachMetres && at < _path.LengthMetres - Loop.JointReachMetres
                && Look(at) is var corner && Math.Abs(corner.TurnRadians) >= CornerRadians)
            {
                candidates.Add(corner);
            }
        }

        // A rounded corner is several small ones: the sharpest stands for those beside it.
        List<Corner> found = [];
        foreach (Corner corner in candidates.OrderByDescending(candidate => Math.Abs(candidate.TurnRadians)))
        {
            if (found.TrueForAll(other => Math.Abs(other.AtMetres - corner.AtMetres) > RoundedMetres))
            {
                found.Add(corner);
            }
        }

        return [.. found.OrderBy(corner => corner.AtMetres)];
    }

    private Corner Look(double at)
    {
        PlanPoint here = _path.PointAt(at);
        (double East, double North) into = Unit(_path.PointAt(at - SightMetres), here);
        (double East, double North) outOf = Unit(here, _path.PointAt(at + SightMetres));
        double turn = Math.Atan2(
            (into.East * outOf.North) - (into.North * outOf.East),
            (into.East * outOf.East) + (into.North * outOf.North));

        // The difference of the two directions points away from the turn: out of the lawn at an ordinary corner.
        return new(at, here, turn, into.East - outOf.East, into.North - outOf.North);
    }

    private static (double East, double North) Unit(PlanPoint from, PlanPoint to)
    {
        double length = from.DistanceTo(to);
        return length > 0
            ? ((to.EastMetres - from.EastMetres) / length, (to.NorthMetres - from.NorthMetres) / length)
            : (0, 0);
    }

    /// <summary>Pairs of corners at one place, the wire between them shorter than the rest: a visit to an island.</summary>
    private List<Detour> FindDetours(List<Corner> corners)
    {
        List<Detour> detours = [];
        for (int i = 0; i < corners.Count; i++)
        {
            // The farthest partner, so that the slot where the link meets the island is not taken for the turn-off.
            for (int j = corners.Count - 1; j > i; j--)
            {
                double length = corners[j].AtMetres - corners[i].AtMetres;
                if (length > 2 * SightMetres && length <= _path.LengthMetres / 2
                    && corners[i].Point.DistanceTo(corners[j].Point) <= SameSlotMetres)
                {
                    detours.Add(new(corners[i].AtMetres, corners[j].AtMetres, LinkLength(corners[i].AtMetres, corners[j].AtMetres)));
                    i = j;
                    break;
                }
            }
        }

        return detours;
    }

    private double LinkLength(double from, double to)
    {
        const double StepMetres = 0.25;
        double link = 0;
        while (from + link + StepMetres < to - link - StepMetres
            && _path.PointAt(from + link + StepMetres).DistanceTo(_path.PointAt(to - link - StepMetres)) <= SameSlotMetres)
        {
            link += StepMetres;
        }

        return link;
    }

    private IEnumerable<Landmark> Named(List<Corner> corners)
    {
        List<(Corner Corner, string Name, int Island)> named = [];
        foreach (Corner corner in corners)
        {
            int detour = DetourAt(corner.AtMetres);
            int turnOff = IndexOfTurnOff(corner.AtMetres);
            if (turnOff >= 0)
            {
                named.Add((corner, _words.Say(Phrase.TurnOff, IslandName(turnOff)), -1));
            }
            else if (detour < 0)
            {
                bool inner = corner.TurnRadians > 0 != IsCounterClockwise;
                named.Add((corner, inner
                    ? _words[Phrase.InnerCorner]
                    : _words.Say(Phrase.Corner, Compass(corner.AwayEast, corner.AwayNorth)), -1));
            }
            else if (!IsOnLink(corner.AtMetres, Detours[detour]))
            {
                PlanPoint middle = RingMiddle(Detours[detour]);
                named.Add((corner, _words.Say(Phrase.IslandCorner, Compass(middle, corner.Point), IslandName(detour)), detour));
            }
        }

        foreach ((Corner corner, string name, int island) in named)
        {
            List<Corner> same = [.. named.Where(other => other.Name == name).Select(other => other.Corner)];
            bool oneThing = IndexOfTurnOff(corner.AtMetres) >= 0 || same.Count == 1;
            yield return new(corner.AtMetres, oneThing ? name : Ordinal(same.IndexOf(corner) + 1, name), island);
        }
    }

    private string Ordinal(int number, string name)
    {
        string ordinal = number <= 3 ? _words[Phrase.Ordinal1 + (number - 1)] : _words.Say(Phrase.OrdinalMore, number);
        return _words.Say(Phrase.NthFromA, ordinal, name);
    }

    private int IndexOfTurnOff(double at)
    {
        for (int i = 0; i < Detours.Count; i++)
        {
            if (at == Detours[i].FromMetres || at == Detours[i].ToMetres)
            {
                return i;
            }
        }

        return -1;
    }

    /// <summary>Whether a place lies where the wire is double, the place where the link meets the island included.</summary>
    internal static bool IsOnLink(double at, Detour detour) =>
        at - detour.FromMetres <= detour.LinkMetres + SameSlotMetres || detour.ToMetres - at <= detour.LinkMetres + SameSlotMetres;

    private PlanPoint RingMiddle(Detour detour)
    {
        const int Samples = 32;
        double from = detour.FromMetres + detour.LinkMetres, to = detour.ToMetres - detour.LinkMetres;
        double east = 0, north = 0;
        for (int i = 0; i < Samples; i++)
        {
            PlanPoint point = _path.PointAt(from + ((to - from) * (i + 0.5) / Samples));
            east += point.EastMetres / Samples;
            north += point.NorthMetres / Samples;
        }

        return new(east, north);
    }

    private readonly record struct Corner(double AtMetres, PlanPoint Point, double TurnRadians, double AwayEast, double AwayNorth);
}
