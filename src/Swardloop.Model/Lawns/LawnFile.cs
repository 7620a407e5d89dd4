using System.Text.Json;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Lawns;

/// <summary>A lawn file, <c>*.lawn.json</c>: a lawn that has no loop yet, its kinds of edge, and where a station may stand. Immutable.</summary>
public sealed class LawnFile
{
    /// <summary>What the file's <c>format</c> says.</summary>
    public const string Format = "swardloop-lawn/1";

    /// <summary>Most corners of all rings and holes together: what a plan is made of in seconds.</summary>
    public const int MostCorners = 500;

    private const int MostEdges = 500, MostCrossings = 50, MostStationPlaces = 20;

    /// <summary>Width of a crossing when the file is silent (m). Common practice, no source.</summary>
    private const double DefaultCrossingMetres = 3;

    private static readonly NumberRange Inset = new(0.15, 5, "m"), Cost = new(0, 10_000, ""), Width = NumberRange.AboveZero(50, "m");

    private static readonly IReadOnlyList<KeyValuePair<string, EdgeKind>> KindWords =
    [
        new("open", EdgeKind.Open), new("wall", EdgeKind.Wall), new("bed", EdgeKind.Bed),
        new("water", EdgeKind.Water), new("drop", EdgeKind.Drop), new("paved", EdgeKind.Paved),
    ];

    private LawnFile()
    {
    }

    /// <summary>What people call the place.</summary>
    public required string Name { get; init; }

    /// <summary>The grass.</summary>
    public required Lawn Lawn { get; init; }

    /// <summary>For each ring, then each hole: the kind of edge from each corner to the next.</summary>
    public required IReadOnlyList<IReadOnlyList<EdgeKind>> Edges { get; init; }

    /// <summary>Drives and paths across it.</summary>
    public required IReadOnlyList<LawnCrossing> Crossings { get; init; }

    /// <summary>Where a station may stand: a socket is near. Empty: anywhere.</summary>
    public required IReadOnlyList<PlanPoint> StationPlaces { get; init; }

    /// <summary>The wire to lay; null: not chosen yet.</summary>
    public required Conductor? Conductor { get; init; }

    /// <summary>The station.</summary>
    public required Station Station { get; init; }

    /// <summary>The mower.</summary>
    public required Mower Mower { get; init; }

    /// <summary>The ground.</summary>
    public required Soil Soil { get; init; }

    /// <summary>Other people's loops.</summary>
    public required IReadOnlyList<NeighbourLoop> Neighbours { get; init; }

    /// <summary>What the loop is laid by, with the file's own insets.</summary>
    public required LayoutRules Rules { get; init; }

    /// <summary>Reads a lawn file.</summary>
    /// <param name="utf8">The file's bytes; see <see cref="JsonText"/> for what is refused before it is looked into.</param>
    /// <param name="sourceName">What problems name as the file.</param>
    /// <returns>The file, or all its problems.</returns>
    public static Checked<LawnFile> Read(ReadOnlyMemory<byte> utf8, string sourceName) =>
        JsonFields.ReadFile(utf8, sourceName, Format, "a lawn file", Read);

    private static LawnFile? Read(JsonFields fields)
    {
        ProblemList problems = fields.Problems;
        string name = fields.Text("name", YardLimits.TextCharacters, required: true) ?? "";
        _ = fields.Element("lawn", "an array of rings", required: true);
        Lawn? lawn = fields.Has("lawn") ? YardReader.ReadLawn(fields) : null;
        Conductor? conductor = fields.Nested("conductor") is { } conductorFields ? ConductorReader.Read(conductorFields) : null;
        Station station = fields.Nested("station") is { } stationFields ? YardReader.ReadStation(stationFields) : new();
        Mower mower = fields.Nested("mower") is { } mowerFields ? YardReader.ReadMower(mowerFields) : new();
        Soil soil = fields.Nested("soil") is { } soilFields ? YardReader.ReadSoil(soilFields) : new();
        List<NeighbourLoop> neighbours = YardReader.ReadList(fields, "neighbours", YardLimits.Neighbours, YardReader.ReadNeighbour);
        List<LawnCrossing> crossings = YardReader.ReadList(fields, "crossings", MostCrossings, ReadCrossing);
        PlanPoint[] places = ReadPlaces(fields);
        LayoutRules rules = ReadRules(fields);
        if (lawn is null)
        {
            return null;
        }

        int corners = lawn.Rings.Concat(lawn.Holes).Sum(ring => ring.Count);
        if (corners > MostCorners)
        {
            problems.Add("lawn", $"has {corners} corners with its holes", $"at most {MostCorners}");
            return null;
        }

        IReadOnlyList<IReadOnlyList<EdgeKind>> edges = ReadEdges(fields, lawn);
        if (problems.Any || !YardGeometry.Check(lawn, problems))
        {
            return null;
        }

        return new()
        {
            Name = name,
            Lawn = lawn,
            Edges = edges,
            Crossings = crossings,
            StationPlaces = places,
            Conductor = conductor,
            Station = station,
            Mower = mower,
            Soil = soil,
            Neighbours = neighbours,
            Rules = rules,
        };
    }

    private static PlanPoint[] ReadPlaces(JsonFields fields)
    {
        if (fields.Element("stationPlaces", "an array of [x, y] in metres") is not { } element || (element.ValueKind == JsonValueKind.Array && element.GetArrayLength() == 0))
        {
            return [];
        }

        PlanPoint[] places = YardReader.ReadPoints(element, "stationPlaces", 1, fields.Problems) ?? [];
        if (places.Length > MostStationPlaces)
        {
            fields.Problems.Add("stationPlaces", $"got {places.Length} places", $"at most {MostStationPlaces}");
        }

        return places;
    }

    private static LawnCrossing? ReadCrossing(JsonFields crossing)
    {
        _ = crossing.Word("kind", ["paved", "gravel", "water"]);
        double cost = crossing.Number("costPerM", Cost, 0), width = crossing.Number("widthM", Width, DefaultCrossingMetres);
        return crossing.Element("path", "an array of [x, y] in metres", required: true) is { } element
            && YardReader.ReadPoints(element, crossing.PlaceOf("path"), 2, crossing.Problems) is { } points
            ? new(new WirePath(points), cost, width)
            : null;
    }

    private static LayoutRules ReadRules(JsonFields fields)
    {
        LayoutRules rules = new();
        if (fields.Nested("insetsM") is not { } insets)
        {
            return rules;
        }

        return rules with { InsetMetres = [.. KindWords.Select((word, i) => insets.Number(word.Key, Inset, rules.InsetMetres[i]))] };
    }

    private static EdgeKind[][] ReadEdges(JsonFields fields, Lawn lawn)
    {
        IReadOnlyList<PlanPoint>[] rings = [.. lawn.Rings, .. lawn.Holes];
        EdgeKind[][] kinds = [.. rings.Select((ring, i) => Enumerable.Repeat(i < lawn.Rings.Count ? EdgeKind.Open : EdgeKind.Bed, ring.Count).ToArray())];
        foreach ((JsonElement element, string place) in fields.Items("edges", 0, MostEdges))
        {
            if (JsonFields.Of(element, place, fields.Problems) is not { } edge)
            {
                continue;
            }

            int? ring = edge.WholeNumber("ring", 0, rings.Length - 1, required: true);
            EdgeKind? kind = edge.Word("kind", KindWords, required: true);
            int last = ring is int r ? rings[r].Count - 1 : LawnFile.MostCorners;
            int? from = edge.WholeNumber("fromCorner", 0, last, required: true), to = edge.WholeNumber("toCorner", 0, last, required: true);
            if (ring is int at && kind is { } what && from is int first && to is int end)
            {
                // From a corner on to another, on along the ring; from a corner to itself is the whole ring.
                int corner = first;
                do
                {
                    kinds[at][corner] = what;
                    corner = (corner + 1) % rings[at].Count;
                }
                while (corner != end);
            }
        }

        return kinds;
    }
}
