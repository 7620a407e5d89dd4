using System.Text.Json;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;

namespace Swardloop.Model.Geo;

/// <summary>Reads GeoJSON (RFC 7946): lines, polygons and points, told apart by the property <c>role</c>; without it a line is the
/// loop, a polygon is lawn, and a point is left alone.</summary>
internal static class GeoJsonReader
{
    private const int MostFeatures = 1_000;

    /// <summary>Member in which Swardloop's own export says where the plan lies, so that coordinates come back as they were.</summary>
    internal const string FrameMember = "swardloopPlan";

    /// <summary>What that member says when coordinates are metres, against RFC 7946 and only on request.</summary>
    internal const string LocalFrame = "metres";

    /// <summary>What the loop's <c>conductor</c> says when nobody knows it.</summary>
    internal const string UnknownConductor = "unknown";

    public static Sketch? Read(ReadOnlyMemory<byte> file, ProblemList problems)
    {
        using JsonDocument? document = JsonText.Parse(file, problems);
        if (document is null || JsonFields.Of(document.RootElement, "", problems) is not JsonFields root)
        {
            return null;
        }

        bool local = root.Element(FrameMember, "") is JsonElement { ValueKind: JsonValueKind.String } frame && frame.ValueEquals(LocalFrame);
        Datum? datum = !local && root.Nested(FrameMember) is JsonFields plan ? YardReader.ReadDatum(plan) : null;
        List<SketchShape> shapes = [];
        string? type = root.Text("type", 50, required: true);
        if (type == "FeatureCollection")
        {
            foreach ((JsonElement feature, string place) in root.Items("features", 0, MostFeatures, required: true))
            {
                if (JsonFields.Of(feature, place, problems) is JsonFields fields)
                {
                    ReadFeature(fields, local, shapes);
                }
            }
        }
        else if (type == "Feature")
        {
            ReadFeature(root, local, shapes);
        }
        else if (type is not null)
        {
            ReadGeometry(root, null, local, shapes);
        }

        return new Sketch(shapes, !local)
        {
            IsOwn = local || datum is not null,
            Datum = datum,
            Name = root.Has("name") ? root.Text("name", YardLimits.TextCharacters) : null,
        };
    }

    private static void ReadFeature(JsonFields feature, bool local, List<SketchShape> shapes)
    {
        // RFC 7946 allows null for both: a feature without a place, and one without properties.
        JsonFields? properties = feature.Element("properties", "") is JsonElement { ValueKind: JsonValueKind.Object } ? feature.Nested("properties") : null;
        if (feature.Element("geometry", "a geometry", required: true) is JsonElement { ValueKind: not JsonValueKind.Null } && feature.Nested("geometry") is JsonFields geometry)
        {
            ReadGeometry(geometry, properties, local, shapes);
        }
    }

    private static void ReadGeometry(JsonFields geometry, JsonFields? properties, bool local, List<SketchShape> shapes)
    {
        string? type = geometry.Text("type", 50, required: true);
        SketchRole? role = properties?.Word("role", SketchReader.Roles);
        const string coordinates = "coordinates";
        string place = geometry.PlaceOf(coordinates);
        switch (type)
        {
            case "Point" when role is null:
                return; // a tree, a gate: drawings hold more than yards do
            case "Point" when role == SketchRole.Joint:
                if (geometry.Element(coordinates, "[x, y]", required: true) is JsonElement point && ReadPosition(point, place, local, geometry.Problems) is SketchPoint at)
                {
                    Add(SketchRole.Joint, [[at]]);
                }

                return;
            case "LineString" when role is not (SketchRole.Lawn or SketchRole.Joint):
                if (geometry.Element(coordinates, "positions", required: true) is JsonElement line && ReadLine(line, place, 2, local, geometry.Problems) is SketchPoint[] points)
                {
                    Add(role ?? SketchRole.Loop, [points]);
                }

                return;
            case "Polygon" when role is not (SketchRole.Joint or SketchRole.Guide):
                if (geometry.Element(coordinates, "rings", required: true) is JsonElement polygon)
                {
                    AddPolygon(polygon, place);
                }

                return;
            case "MultiPolygon" when role is null or SketchRole.Lawn:
                foreach ((JsonElement each, string eachPlace) in geometry.Items(coordinates, 1, YardLimits.Rings, required: true))
                {
                    AddPolygon(each, eachPlace);
                }

                return;
            case null:
                return;
            default:
                geometry.Problems.Add(geometry.PlaceOf("type"), $"got {JsonText.Shortened(type)}{(role is null ? "" : " for the role " + role.ToString()!.ToLowerInvariant())}",
                    "LineString (loop, metal, neighbour, guide), Polygon (lawn, loop, metal, neighbour), MultiPolygon (lawn), Point (joint)");
                return;
        }

        bool SaysUnknown() => properties?.Element("conductor", "") is JsonElement { ValueKind: JsonValueKind.String } word && word.ValueEquals(UnknownConductor);

        void AddPolygon(JsonElement polygon, string polygonPlace)
        {
            List<SketchPoint[]> rings = [];
            foreach ((JsonElement ring, string ringPlace) in JsonFields.Items(polygon, polygonPlace, 1, YardLimits.Holes, geometry.Problems))
            {
                if (ReadLine(ring, ringPlace, 4, local, geometry.Problems) is SketchPoint[] points)
                {
                    rings.Add(points);
                }
            }

            if (rings.Count > 0)
            {
                Add(role ?? SketchRole.Lawn, rings);
            }
        }

        void Add(SketchRole shapeRole, IReadOnlyList<SketchPoint[]> lines) => shapes.Add(new(shapeRole, place, lines)
        {
            Kind = shapeRole == SketchRole.Metal ? properties?.Text("kind", YardLimits.TextCharacters) : null,
            Ohms = shapeRole switch
            {
                SketchRole.Metal => properties?.Number("earthOhms", YardLimits.Ohms),
                SketchRole.Neighbour => properties?.Number("ohms", YardLimits.Ohms),
                _ => null,
            },
            SameCoding = shapeRole == SketchRole.Neighbour ? properties?.Flag("sameCoding") : null,
            AtMetres = shapeRole == SketchRole.Joint ? properties?.Number("atM", YardLimits.AlongWire) : null,
            Style = shapeRole == SketchRole.Joint && properties is not null ? YardWords.ReadJointStyle(properties, "style") : null,
            Wire = shapeRole == SketchRole.Guide ? properties?.Text("name", YardLimits.NameCharacters)
                : shapeRole == SketchRole.Joint ? properties?.Text("wire", YardLimits.NameCharacters) : null,
            JoinsAtMetres = shapeRole == SketchRole.Guide ? properties?.Number("joinsAtM", YardLimits.AlongWire) : null,
            Course = shapeRole == SketchRole.Loop && properties is not null ? YardWords.ReadCourse(properties, "course") : WireCourse.Drawn,
            CourseToleranceMetres = shapeRole == SketchRole.Loop ? properties?.Number("courseToleranceM", YardLimits.CourseTolerance) : null,
            LengthToleranceMetres = shapeRole == SketchRole.Loop ? properties?.Number("lengthToleranceM", YardLimits.LengthTolerance) : null,
            IsConductorUnknown = shapeRole == SketchRole.Loop && SaysUnknown(),
            Conductor = shapeRole is SketchRole.Loop or SketchRole.Guide && properties?.Has("conductor") == true && !SaysUnknown()
                && properties.Nested("conductor") is JsonFields conductor ? ConductorReader.Read(conductor) : null,
        });
    }

    private static SketchPoint[]? ReadLine(JsonElement element, string place, int least, bool local, ProblemList problems)
    {
        List<SketchPoint> points = [];
        bool good = true;
        foreach ((JsonElement position, string positionPlace) in JsonFields.Items(element, place, least, YardLimits.TrackPoints, problems))
        {
            if (ReadPosition(position, positionPlace, local, problems) is SketchPoint point)
            {
                points.Add(point);
            }
            else
            {
                good = false;
            }
        }

        return good && points.Count > 0 ? [.. points] : null;
    }

    private static SketchPoint? ReadPosition(JsonElement position, string place, bool local, ProblemList problems)
    {
        NumberRange first = local ? YardLimits.Coordinate : SketchReader.LongitudeDegrees;
        NumberRange second = local ? YardLimits.Coordinate : SketchReader.LatitudeDegrees;

        // A third number is the height, which a plan does not need.
        if (position.ValueKind == JsonValueKind.Array && position.GetArrayLength() is 2 or 3
            && position[0] is { ValueKind: JsonValueKind.Number } x && position[1] is { ValueKind: JsonValueKind.Number } y
            && x.TryGetDouble(out double east) && y.TryGetDouble(out double north) && first.Holds(east) && second.Holds(north))
        {
            return new(east, north);
        }

        problems.Add(place, $"got {YardReader.ShownPoint(position)}", local ? $"[x, y], each {first}" : $"[longitude, latitude], {first} and {second}");
        return null;
    }
}
