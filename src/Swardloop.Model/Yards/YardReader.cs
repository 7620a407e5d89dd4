using System.Text.Json;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>Reads the yard object property by property, converting to SI.</summary>
internal static class YardReader
{
    private static readonly Station StationDefaults = new();
    private static readonly Mower MowerDefaults = new();
    private static readonly Soil SoilDefaults = new();

    /// <summary>Reads everything that can be read, noting every problem.</summary>
    /// <returns><see langword="null"/> when something required is missing; with problems noted the result is not to be used.</returns>
    public static Yard? Read(JsonElement element, string place, ProblemList problems)
    {
        if (JsonFields.Of(element, place, problems) is not JsonFields yard || !yard.IsOfFormat(YardFile.Format, "a yard file"))
        {
            return null;
        }

        // What is wrong in one part must not keep the others from being looked at: stand-ins fill the gaps, and with a problem
        // noted the yard is never handed out.
        string name = yard.Text("name", YardLimits.TextCharacters, required: true) ?? "";
        Datum? datum = yard.Nested("datum") is JsonFields datumFields ? ReadDatum(datumFields) : null;
        Lawn? lawn = ReadLawn(yard);
        List<GuideWire> guides = [];
        foreach ((JsonElement item, string at) in yard.Items("guides", 0, YardLimits.Guides))
        {
            if (JsonFields.Of(item, at, problems) is JsonFields guide && ReadGuide(guide, guides) is GuideWire read)
            {
                guides.Add(read);
            }
        }

        Loop? loop = yard.Nested("loop", required: true) is JsonFields loopFields ? ReadLoop(loopFields, guides) : null;
        Station station = yard.Nested("station") is JsonFields stationFields ? ReadStation(stationFields) : StationDefaults;
        Mower mower = yard.Nested("mower") is JsonFields mowerFields ? ReadMower(mowerFields) : MowerDefaults;
        Soil soil = yard.Nested("soil") is JsonFields soilFields ? ReadSoil(soilFields) : SoilDefaults;
        List<MetalObject> metal = ReadList(yard, "metal", YardLimits.MetalObjects, ReadMetal);
        List<NeighbourLoop> neighbours = ReadList(yard, "neighbours", YardLimits.Neighbours, ReadNeighbour);
        double lengthMetres = loop?.LengthMetres ?? YardLimits.AlongWire.Most;
        List<RiskSpot> riskSpots = ReadList(yard, "riskSpots", YardLimits.RiskSpots, spot => ReadRiskSpot(spot, lengthMetres));
        if (loop is null)
        {
            return null;
        }

        CheckGuides(yard, guides, loop.LengthMetres);
        YardGeometry.Check(loop.Path, lawn, place, problems);
        lawn ??= LawnFromWire.Lawn(loop.Path);
        if (lawn is null)
        {
            if (!yard.Has("lawn"))
            {
                problems.Add(yard.PlaceOf("loop.path"), "encloses no area, and there is no 'lawn'", "a wire round the lawn, or a lawn");
            }

            return null;
        }

        return new Yard
        {
            Name = name,
            Datum = datum,
            Lawn = lawn,
            Loop = loop,
            Guides = guides,
            Station = station,
            Mower = mower,
            Soil = soil,
            Metal = metal,
            Neighbours = neighbours,
            RiskSpots = riskSpots,
        };
    }

    internal static Datum ReadDatum(JsonFields datum) => new(
        datum.Number("latitude", YardLimits.Latitude, required: true) ?? 0,
        datum.Number("longitude", YardLimits.Longitude, required: true) ?? 0,
        datum.Number("bearingDeg", YardLimits.Bearing, 0));

    internal static Lawn? ReadLawn(JsonFields yard)
    {
        List<PlanPoint[]> holes = ReadRings(yard, "holes", 0, YardLimits.Holes);
        if (!yard.Has("lawn"))
        {
            if (holes.Count > 0)
            {
                yard.Problems.Add(yard.PlaceOf("holes"), "holes without a lawn", "'lawn' beside 'holes'");
            }

            return null;
        }

        List<PlanPoint[]> rings = ReadRings(yard, "lawn", 1, YardLimits.Rings);
        return rings.Count > 0 ? new Lawn(rings, holes) : null;
    }

    private static List<PlanPoint[]> ReadRings(JsonFields yard, string name, int least, int most)
    {
        List<PlanPoint[]> rings = [];
        foreach ((JsonElement element, string place) in yard.Items(name, least, most))
        {
            if (ReadPoints(element, place, 3, yard.Problems) is not PlanPoint[] ring)
            {
                continue;
            }

            // Rings close by themselves; a last corner that repeats the first, as GeoJSON wants it, is taken as that closing.
            ring = ring[0] == ring[^1] ? ring[..^1] : ring;
            if (ring.Length >= 3)
            {
                rings.Add(ring);
            }
            else
            {
                yard.Problems.Add(place, $"got {ring.Length} different corners", "at least 3");
            }
        }

        return rings;
    }

    /// <summary>Reads one guide wire; where it joins is checked once the loop is read.</summary>
    /// <param name="guide">The guide wire.</param>
    /// <param name="taken">Those read before it.</param>
    private static GuideWire? ReadGuide(JsonFields guide, List<GuideWire> taken)
    {
        string? name = guide.Text("name", YardLimits.NameCharacters, required: true);
        double? joins = guide.Number("joinsAtM", YardLimits.AlongWire, required: true);
        WirePath? path = ReadPath(guide);
        Conductor? conductor = guide.Nested("conductor") is JsonFields fields ? ConductorReader.Read(fields) : null;
        if (name is not null && taken.Exists(other => other.Name == name))
        {
            guide.Problems.Add(guide.PlaceOf("name"), $"\"{name}\" is the name of another guide wire", "each name once");
        }

        if (path is { LengthMetres: var length } && !(length >= YardLimits.LeastGuideMetres && length <= YardLimits.MostLoopMetres))
        {
            guide.Problems.Add(guide.PlaceOf("path"), FormattableString.Invariant($"the guide wire is {length:0.###} m long"),
                FormattableString.Invariant($"{YardLimits.LeastGuideMetres} to {YardLimits.MostLoopMetres} m"));
        }

        return name is not null && joins is double at && path is not null ? new(name, at, path, conductor) : null;
    }

    private static void CheckGuides(JsonFields yard, List<GuideWire> guides, double loopMetres)
    {
        foreach (GuideWire guide in guides.Where(guide => guide.JoinsAtMetres > loopMetres + 0.005))
        {
            yard.Problems.Add(yard.PlaceOf("guides"), FormattableString.Invariant($"{guide.Name} joins at {guide.JoinsAtMetres} m, beyond the end of the wire"),
                FormattableString.Invariant($"0 to {loopMetres:0.###} m"));
        }
    }

    private static Loop? ReadLoop(JsonFields loop, List<GuideWire> guides)
    {
        WirePath? path = ReadPath(loop);
        Conductor? conductor = loop.Nested("conductor") is JsonFields fields ? ConductorReader.Read(fields) : null;
        double depth = loop.Number("depthM", YardLimits.Depth, YardLimits.DefaultDepthMetres);
        double tolerance = loop.Number("lengthToleranceM", YardLimits.LengthTolerance, YardLimits.DefaultLengthToleranceMetres);
        WireCourse course = YardWords.ReadCourse(loop, "course");
        double courseTolerance = loop.Number("courseToleranceM", YardLimits.CourseTolerance, 0);
        double picofarads = loop.Number("capacitancePFPerM", YardLimits.Capacitance, YardLimits.DefaultPicofaradsPerMetre);
        double lengthMetres = path?.LengthMetres ?? YardLimits.AlongWire.Most;
        List<PlacedJoint> taken = [];
        List<PlacedJoint> placed = ReadList(loop, "joints", YardLimits.Joints, joint => ReadJoint(joint, lengthMetres, guides, taken));
        for (int i = 0; i < guides.Count; i++)
        {
            guides[i] = guides[i] with { Joints = JointsOn(guides[i].Name) };
        }

        return path is null
            ? null
            : new Loop
            {
                Path = path,
                Conductor = conductor ?? UnknownConductor.StandIn,
                ConductorIsKnown = loop.Has("conductor"),
                DepthMetres = depth,
                LengthToleranceMetres = tolerance,
                Course = course,
                CourseToleranceMetres = courseTolerance,
                CapacitanceFaradPerMetre = picofarads / 1e12,
                Joints = JointsOn(null),
            };

        List<Joint> JointsOn(string? wire) =>
            [.. placed.Where(joint => joint.Wire == wire).Select(joint => joint.Joint).OrderBy(joint => joint.AtMetres)];
    }

    private static WirePath? ReadPath(JsonFields fields) =>
        fields.Element("path", "an array of [x, y] in metres", required: true) is JsonElement element
            && ReadPoints(element, fields.PlaceOf("path"), 2, fields.Problems) is PlanPoint[] points
            ? new WirePath(points)
            : null;

    internal static Station ReadStation(JsonFields station) => new()
    {
        SourceOhms = station.Number("sourceOhms", YardLimits.Ohms, StationDefaults.SourceOhms),
        SourceRelativeDeviation = station.Number("sourceUncertaintyPercent", YardLimits.UncertaintyPercent, StationDefaults.SourceRelativeDeviation * 100) / 100,
        FrequencyHertz = station.Number("frequencyHz", YardLimits.Frequency, StationDefaults.FrequencyHertz),
        LampAlarmOhms = station.Number("lampAlarmOhms", YardLimits.Ohms, StationDefaults.LampAlarmOhms),
        HasContinuityLamp = station.Flag("hasContinuityLamp") ?? StationDefaults.HasContinuityLamp,
    };

    internal static Mower ReadMower(JsonFields mower) => new()
    {
        ReachConstantOhmMetres = mower.Number("reachConstantOhmM", YardLimits.ReachConstant, MowerDefaults.ReachConstantOhmMetres),
        ReachRelativeDeviation = mower.Number("reachUncertaintyPercent", YardLimits.UncertaintyPercent, MowerDefaults.ReachRelativeDeviation * 100) / 100,
        SensorHeightMetres = mower.Number("sensorHeightM", YardLimits.SensorHeight, MowerDefaults.SensorHeightMetres),
    };

    internal static Soil ReadSoil(JsonFields soil) => new()
    {
        ResistivityOhmMetres = soil.Number("resistivityOhmM", YardLimits.SoilResistivity, SoilDefaults.ResistivityOhmMetres),
        TemperatureCelsius = soil.Number("temperatureC", YardLimits.Temperature, SoilDefaults.TemperatureCelsius),
    };

    private static PlacedJoint? ReadJoint(JsonFields joint, double loopMetres, List<GuideWire> guides, List<PlacedJoint> taken)
    {
        string? wire = joint.Text("wire", YardLimits.NameCharacters);
        double lengthMetres = loopMetres;
        if (wire is not null)
        {
            if (guides.Find(guide => guide.Name == wire) is not GuideWire on)
            {
                joint.Problems.Add(joint.PlaceOf("wire"), $"got \"{JsonText.Shortened(wire)}\"",
                    guides.Count > 0 ? string.Join(", ", guides.Select(guide => guide.Name)) : "the name of one of 'guides'; nothing for the loop");
                return null;
            }

            lengthMetres = on.LengthMetres;
        }

        double? at = PlaceOnWire(joint, "atM", lengthMetres);
        JointStyle style = YardWords.ReadJointStyle(joint, "style") ?? JointStyle.Unknown;
        if (at is not double metres)
        {
            return null;
        }

        // Two joints closer than Loop.JointReachMetres are real, a mend leaves them; the same place twice is a slip.
        if (taken.Find(other => other.Wire == wire && Math.Abs(other.Joint.AtMetres - metres) < YardLimits.SameJointMetres) is PlacedJoint same)
        {
            joint.Problems.Add(joint.PlaceOf("atM"), FormattableString.Invariant($"{metres} m is the place of {same.Place} already"), "each joint once");
        }

        PlacedJoint read = new(new(metres, style), wire, joint.Place);
        taken.Add(read);
        return read;
    }

    /// <summary>A joint, on which guide wire it is (null: the loop), and where it stands in the file.</summary>
    private sealed record PlacedJoint(Joint Joint, string? Wire, string Place);

    private static MetalObject? ReadMetal(JsonFields metal)
    {
        string kind = metal.Text("kind", YardLimits.TextCharacters) ?? YardLimits.DefaultMetalKind;
        double earthOhms = metal.Number("earthOhms", YardLimits.Ohms, YardLimits.DefaultEarthOhms);
        return ReadPath(metal) is WirePath path ? new(kind, path, earthOhms) : null;
    }

    internal static NeighbourLoop? ReadNeighbour(JsonFields neighbour)
    {
        bool sameCoding = neighbour.Flag("sameCoding") ?? false;
        double ohms = neighbour.Number("ohms", YardLimits.Ohms, YardLimits.DefaultNeighbourOhms);
        return ReadPath(neighbour) is WirePath path ? new(path, sameCoding, ohms) : null;
    }

    private static RiskSpot? ReadRiskSpot(JsonFields spot, double lengthMetres)
    {
        double? from = PlaceOnWire(spot, "fromM", lengthMetres);
        double? to = PlaceOnWire(spot, "toM", lengthMetres);
        string kind = spot.Text("kind", YardLimits.TextCharacters) ?? YardLimits.DefaultRiskKind;
        double weight = spot.Number("weight", YardLimits.RiskWeight, YardLimits.DefaultRiskWeight);
        if (from is not double fromMetres || to is not double toMetres)
        {
            return null;
        }

        if (!(fromMetres < toMetres))
        {
            spot.Problems.Add(spot.PlaceOf("toM"), FormattableString.Invariant($"{toMetres} does not lie beyond fromM, {fromMetres}"), "more than fromM");
            return null;
        }

        return new(fromMetres, toMetres, kind, weight);
    }

    /// <summary>Metres along the wire; beyond its end is a problem of its own, told with the wire's length.</summary>
    private static double? PlaceOnWire(JsonFields fields, string name, double lengthMetres)
    {
        double? at = fields.Number(name, YardLimits.AlongWire, required: true);

        // Half a centimetre is what rounding in a file may add to a place at the very end.
        if (at is double metres && metres > lengthMetres + 0.005)
        {
            fields.Problems.Add(fields.PlaceOf(name), FormattableString.Invariant($"{metres} m lies beyond the end of the wire"),
                FormattableString.Invariant($"0 to {lengthMetres:0.###} m"));
        }

        return at is double value ? Math.Min(value, lengthMetres) : null;
    }

    internal static List<T> ReadList<T>(JsonFields fields, string name, int most, Func<JsonFields, T?> read)
        where T : class
    {
        List<T> list = [];
        foreach ((JsonElement element, string place) in fields.Items(name, 0, most))
        {
            if (JsonFields.Of(element, place, fields.Problems) is JsonFields item && read(item) is T value)
            {
                list.Add(value);
            }
        }

        return list;
    }

    /// <summary>Reads an array of [x, y]; <see langword="null"/>, with problems noted, when anything in it is wrong.</summary>
    internal static PlanPoint[]? ReadPoints(JsonElement element, string place, int least, ProblemList problems)
    {
        if (element.ValueKind == JsonValueKind.Array && element.GetArrayLength() > YardLimits.PathPoints)
        {
            problems.Add(place, $"got {element.GetArrayLength()} corners", YardLimits.SimplifyFirst);
            return null;
        }

        if (element.ValueKind != JsonValueKind.Array || element.GetArrayLength() < least)
        {
            problems.Add(place, $"got {JsonFields.Shown(element)}", $"an array of {least} to {YardLimits.PathPoints} corners [x, y] in metres");
            return null;
        }

        PlanPoint[] points = new PlanPoint[element.GetArrayLength()];
        int index = 0;
        bool good = true;
        foreach (JsonElement corner in element.EnumerateArray())
        {
            if (TryReadPoint(corner, out PlanPoint point))
            {
                points[index] = point;
            }
            else
            {
                good = false;
                problems.Add($"{place}[{index}]", $"got {ShownPoint(corner)}",
                    $"[x, y], each {YardLimits.Coordinate}");
            }

            index++;
        }

        return good ? points : null;
    }

    internal static bool TryReadPoint(JsonElement corner, out PlanPoint point)
    {
        point = default;
        if (corner.ValueKind != JsonValueKind.Array || corner.GetArrayLength() != 2
            || corner[0] is not { ValueKind: JsonValueKind.Number } x || corner[1] is not { ValueKind: JsonValueKind.Number } y
            || !x.TryGetDouble(out double east) || !y.TryGetDouble(out double north)
            || !YardLimits.Coordinate.Holds(east) || !YardLimits.Coordinate.Holds(north))
        {
            return false;
        }

        point = new(east, north);
        return true;
    }

    internal static string ShownPoint(JsonElement corner) => corner.ValueKind == JsonValueKind.Array && corner.GetArrayLength() is > 0 and <= 4
        ? $"[{string.Join(", ", corner.EnumerateArray().Select(JsonFields.Shown))}]"
        : JsonFields.Shown(corner);
}
