using System.Text.Json.Nodes;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>Writes a yard's shapes as GeoJSON (RFC 7946): the loop, its joints, guide wires and theirs, lawn with holes, metal, neighbours; each with its <c>role</c>.</summary>
public static class YardGeoJson
{
    /// <summary>Decimals of a degree: 0.01 mm on the ground, so that tenths of a millimetre come back as they were.</summary>
    private const int DegreeDecimals = 10;

    private const int MetreDecimals = 4;

    /// <summary>Writes longitude and latitude.</summary>
    /// <param name="yard">A yard with a datum.</param>
    /// <exception cref="ArgumentException">The yard has none.</exception>
    public static byte[] Write(Yard yard) => yard.Datum is Datum datum
        ? Write(yard, datum.ToPlane(), new JsonObject
        {
            ["latitude"] = datum.LatitudeDegrees,
            ["longitude"] = datum.LongitudeDegrees,
            ["bearingDeg"] = datum.BearingDegrees,
        })
        : throw new ArgumentException("The yard has no datum, so its places have no longitude and latitude.", nameof(yard));

    /// <summary>Writes plan metres instead, against RFC 7946, marked as such; for programs that draw without a map.</summary>
    public static byte[] WriteLocal(Yard yard) => Write(yard, null, GeoJsonReader.LocalFrame);

    private static byte[] Write(Yard yard, LocalPlane? plane, JsonNode frame)
    {
        JsonObject tree = YardTree.Full(yard);
        JsonArray guides = tree["guides"]!.AsArray();
        JsonNode loop = tree["loop"]!;
        JsonNode conductor = loop["conductor"]?.DeepClone() ?? GeoJsonReader.UnknownConductor;
        (string, JsonNode)[] course = yard.Loop.Course == WireCourse.Drawn ? []
            : [.. ((string[])["course", "courseToleranceM", "lengthToleranceM"]).Where(name => loop[name] is not null).Select(name => (name, loop[name]!.DeepClone()))];
        List<JsonNode> features =
        [
            Feature("loop", "LineString", Line(yard.Loop.Path.Points, plane), [("conductor", conductor), .. course]),
            .. yard.Loop.Joints.Select(joint => Feature("joint", "Point", Position(yard.Loop.Path.PointAt(joint.AtMetres), plane),
                ("atM", joint.AtMetres), ("style", YardWords.Of(joint.Style)))),
            .. yard.Guides.Select((guide, index) => Feature("guide", "LineString", Line(guide.Path.Points, plane),
                [("name", guide.Name), ("joinsAtM", guide.JoinsAtMetres), .. guides[index]!["conductor"] is { } other ? [("conductor", other.DeepClone())] : Array.Empty<(string, JsonNode)>()])),
            .. yard.Guides.SelectMany(guide => guide.Joints.Select(joint => Feature("joint", "Point", Position(guide.Path.PointAt(joint.AtMetres), plane),
                ("atM", joint.AtMetres), ("style", YardWords.Of(joint.Style)), ("wire", guide.Name)))),
            .. yard.Lawn.Rings.Select((ring, index) => Feature("lawn", "Polygon", Polygon(yard.Lawn, index, plane))),
            .. yard.Metal.Select(metal => Feature("metal", "LineString", Line(metal.Path.Points, plane), ("kind", metal.Kind), ("earthOhms", metal.EarthOhms))),
            .. yard.Neighbours.Select(neighbour => Feature("neighbour", "LineString", Line(neighbour.Path.Points, plane),
                ("sameCoding", neighbour.SameCoding), ("ohms", neighbour.Ohms))),
        ];
        return JsonLayout.ToUtf8(new JsonObject
        {
            ["type"] = "FeatureCollection",
            ["name"] = yard.Name,
            [GeoJsonReader.FrameMember] = frame,
            ["features"] = new JsonArray([.. features]),
        });
    }

    private static JsonObject Feature(string role, string type, JsonNode coordinates, params (string Name, JsonNode Value)[] properties)
    {
        JsonObject all = new() { ["role"] = role };
        foreach ((string name, JsonNode value) in properties)
        {
            all[name] = value;
        }

        return new() { ["type"] = "Feature", ["properties"] = all, ["geometry"] = new JsonObject { ["type"] = type, ["coordinates"] = coordinates } };
    }

    /// <summary>An outer ring, counter-clockwise, and the holes that lie in it, clockwise, all closed, as RFC 7946 wants them.</summary>
    private static JsonArray Polygon(Lawn lawn, int index, LocalPlane? plane)
    {
        IEnumerable<IReadOnlyList<PlanPoint>> holes = lawn.Holes.Where(hole => RingOf(lawn, hole) == index);
        return new([Ring(lawn.Rings[index], plane, leftTurning: true), .. holes.Select(hole => Ring(hole, plane, leftTurning: false))]);
    }

    /// <summary>The ring that holds most of a hole's corners; they may touch its edge.</summary>
    private static int RingOf(Lawn lawn, IReadOnlyList<PlanPoint> hole) => lawn.Rings
        .Select((ring, index) => (Index: index, Inside: hole.Count(new Lawn([ring], []).Contains)))
        .MaxBy(candidate => candidate.Inside).Index;

    private static JsonArray Ring(IReadOnlyList<PlanPoint> ring, LocalPlane? plane, bool leftTurning)
    {
        IEnumerable<PlanPoint> points = Lawn.SignedArea(ring) > 0 == leftTurning ? ring : ring.Reverse();
        return Line([.. points, points.First()], plane);
    }

    private static JsonArray Line(IReadOnlyList<PlanPoint> points, LocalPlane? plane) => new([.. points.Select(point => Position(point, plane))]);

    private static JsonArray Position(PlanPoint point, LocalPlane? plane)
    {
        if (plane is null)
        {
            return new(Math.Round(point.EastMetres, MetreDecimals), Math.Round(point.NorthMetres, MetreDecimals));
        }

        (double latitude, double longitude) = plane.ToGeodetic(point);
        return new(Math.Round(longitude, DegreeDecimals), Math.Round(latitude, DegreeDecimals));
    }
}
