using System.Globalization;
using System.Text;
using Swardloop.Core.Geometry;
using Swardloop.Model.Lawns;

namespace Swardloop.Model.Tests.Planning;

/// <summary>Lawns drawn from a seed: notched rectangles with islands, kinds of edge and a drive; every second one with a passage between two rooms instead.</summary>
internal sealed class RandomLawn
{
    private static readonly string[] Kinds = ["open", "wall", "bed", "water", "drop", "paved"];

    private readonly Random _random;
    private readonly List<string> _edges = [];

    public RandomLawn(int seed)
    {
        _random = new(seed);
        IsPlain = seed % 2 == 0;
        double width = Between(7, 16), length = Between(9, 30);
        Ring = IsPlain ? Notched(width, length) : TwoRooms(width, length);
        AddIslands(IsPlain ? 3.2 : 1.2);
        string kind = Kinds[_random.Next(Kinds.Length)];
        for (int ring = 0; ring <= Holes.Count; ring++)
        {
            // Closed forms of the length need the same inset along a ring; the others mix kinds.
            int corners = ring == 0 ? Ring.Length : 4;
            for (int corner = 0; corner < corners; corner++)
            {
                Set(ring, corner, corners, IsPlain ? kind : Kinds[_random.Next(Kinds.Length)]);
            }

            kind = Kinds[_random.Next(Kinds.Length)];
        }
    }

    /// <summary>Whether islands keep clear of edges and of each other, so that the shortest wire has a closed form.</summary>
    public bool IsPlain { get; }

    /// <summary>The outer ring, counter-clockwise, square corners.</summary>
    public PlanPoint[] Ring { get; }

    /// <summary>Rectangular islands.</summary>
    public List<PlanPoint[]> Holes { get; } = [];

    /// <summary>Kind of each ring's first edge.</summary>
    public List<int> KindOfRing { get; } = [];

    public LawnFile File
    {
        get
        {
            string holes = string.Join(",", Holes.Select(Text)), station = Point(new((Ring[0].EastMetres + Ring[1].EastMetres) / 2, Ring[0].NorthMetres));
            string text = $$$"""{"format":"swardloop-lawn/1","name":"lawn","lawn":[{{{Text(Ring)}}}],"holes":[{{{holes}}}],"edges":[{{{string.Join(",", _edges)}}}],"crossings":[{"path":[[-5,6],[60,6]],"costPerM":20,"widthM":2}],"stationPlaces":[{{{station}}}],"conductor":{"material":"copper","areaMm2":1.5}}""";
            var read = LawnFile.Read(Encoding.UTF8.GetBytes(text), "random");
            Assert.True(read.IsGood, string.Join("\n", read.Lines()) + text);
            return read.Value;
        }
    }

    private static string Text(PlanPoint[] ring) => $"[{string.Join(",", ring.Select(Point))}]";

    private static string Point(PlanPoint p) => string.Create(CultureInfo.InvariantCulture, $"[{p.EastMetres:0.##},{p.NorthMetres:0.##}]");

    private void Set(int ring, int corner, int corners, string kind)
    {
        _edges.Add($$"""{"ring":{{ring}},"fromCorner":{{corner}},"toCorner":{{(corner + 1) % corners}},"kind":"{{kind}}"}""");
        if (corner == 0)
        {
            KindOfRing.Add(Array.IndexOf(Kinds, kind));
        }
    }

    private double Between(double low, double high) => Math.Round(low + ((high - low) * _random.NextDouble()), 1);

    // A rectangle with a notch in its north-east corner, a third of the way in at most: concave.
    private PlanPoint[] Notched(double width, double length)
    {
        double east = Between(width * 0.6, width - 2.6), north = Between(length * 0.6, length - 2.6);
        return _random.Next(3) == 0
            ? [new(0, 0), new(width, 0), new(width, length), new(0, length)]
            : [new(0, 0), new(width, 0), new(width, north), new(east, north), new(east, length), new(0, length)];
    }

    // Two rooms, one behind the other, and a passage between, from too narrow to wide.
    private PlanPoint[] TwoRooms(double width, double length)
    {
        double passage = Between(0.8, 3.5), west = Between(1, width - 1 - passage), first = length * 0.5, second = first + Between(1, 4);
        return
        [
            new(0, 0), new(width, 0), new(width, first), new(west + passage, first), new(west + passage, second), new(width, second),
            new(width, second + 7), new(0, second + 7), new(0, second), new(west, second), new(west, first), new(0, first),
        ];
    }

    private void AddIslands(double clear)
    {
        for (int i = 0; i < 12 && Holes.Count < 3; i++)
        {
            double east = Between(clear, 14), north = Between(clear, 25), width = Between(0.8, 2.5), height = Between(0.8, 2.5);
            PlanPoint[] hole = [new(east, north), new(east + width, north), new(east + width, north + height), new(east, north + height)];
            if (Holes.TrueForAll(other => Gap(hole, other) > clear) && IsInside(hole, clear))
            {
                Holes.Add(hole);
            }
        }
    }

    private bool IsInside(PlanPoint[] hole, double clear)
    {
        Lawn lawn = new([Ring], []);
        WirePath edge = new([.. Ring, Ring[0]]);
        WirePath rim = new([.. hole, hole[0]]);
        return Array.TrueForAll(hole, lawn.Contains) && hole.All(corner => edge.NearestTo(corner).DistanceMetres > clear)
            && Ring.All(corner => rim.NearestTo(corner).DistanceMetres > clear);
    }

    private static double Gap(PlanPoint[] a, PlanPoint[] b) => Math.Max(
        Math.Max(a[0].EastMetres - b[2].EastMetres, b[0].EastMetres - a[2].EastMetres),
        Math.Max(a[0].NorthMetres - b[2].NorthMetres, b[0].NorthMetres - a[2].NorthMetres));
}
