using System.Globalization;
using System.Text.Json.Nodes;
using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Yards;

/// <summary>The yard as a JSON tree in the file's units, and how a changed yard goes back into the document it came from.</summary>
internal static class YardTree
{
    /// <summary>Every property, defaults too; the lawn always drawn.</summary>
    public static JsonObject Full(Yard yard)
    {
        JsonObject tree = new() { ["format"] = YardFile.Format, ["name"] = yard.Name };
        if (yard.Datum is Datum datum)
        {
            tree["datum"] = new JsonObject { ["latitude"] = datum.LatitudeDegrees, ["longitude"] = datum.LongitudeDegrees, ["bearingDeg"] = datum.BearingDegrees };
        }

        tree["lawn"] = Array(yard.Lawn.Rings, Points);
        tree["holes"] = Array(yard.Lawn.Holes, Points);
        JsonObject loop = new() { ["path"] = Points(yard.Loop.Path.Points) };
        if (yard.Loop.ConductorIsKnown)
        {
            loop["conductor"] = ConductorTree(yard.Loop.Conductor);
        }

        loop["depthM"] = yard.Loop.DepthMetres;
        loop["lengthToleranceM"] = yard.Loop.LengthToleranceMetres;
        if (yard.Loop.Course != WireCourse.Drawn)
        {
            loop["course"] = YardWords.Of(yard.Loop.Course);
        }

        if (yard.Loop.CourseToleranceMetres > 0)
        {
            loop["courseToleranceM"] = yard.Loop.CourseToleranceMetres;
        }

        loop["joints"] = new JsonArray(
            [.. yard.Loop.Joints.Select(joint => JointTree(joint, null)), .. yard.Guides.SelectMany(guide => guide.Joints.Select(joint => JointTree(joint, guide.Name)))]);
        loop["capacitancePFPerM"] = Tidy(yard.Loop.CapacitanceFaradPerMetre * 1e12);
        tree["loop"] = loop;
        tree["guides"] = Array(yard.Guides, GuideTree);
        tree["station"] = new JsonObject
        {
            ["sourceOhms"] = yard.Station.SourceOhms,
            ["sourceUncertaintyPercent"] = Tidy(yard.Station.SourceRelativeDeviation * 100),
            ["frequencyHz"] = yard.Station.FrequencyHertz,
            ["lampAlarmOhms"] = yard.Station.LampAlarmOhms,
            ["hasContinuityLamp"] = yard.Station.HasContinuityLamp,
        };
        tree["mower"] = new JsonObject
        {
            ["reachConstantOhmM"] = yard.Mower.ReachConstantOhmMetres,
            ["reachUncertaintyPercent"] = Tidy(yard.Mower.ReachRelativeDeviation * 100),
            ["sensorHeightM"] = yard.Mower.SensorHeightMetres,
        };
        tree["soil"] = new JsonObject { ["resistivityOhmM"] = yard.Soil.ResistivityOhmMetres, ["temperatureC"] = yard.Soil.TemperatureCelsius };
        tree["metal"] = Array(yard.Metal, metal =>
            new JsonObject { ["kind"] = metal.Kind, ["path"] = Points(metal.Path.Points), ["earthOhms"] = metal.EarthOhms });
        tree["neighbours"] = Array(yard.Neighbours, neighbour =>
            new JsonObject { ["path"] = Points(neighbour.Path.Points), ["sameCoding"] = neighbour.SameCoding, ["ohms"] = neighbour.Ohms });
        tree["riskSpots"] = Array(yard.RiskSpots, spot =>
            new JsonObject { ["fromM"] = spot.FromMetres, ["toM"] = spot.ToMetres, ["kind"] = spot.Kind, ["weight"] = spot.Weight });
        return tree;
    }

    /// <summary>What has to be said: what is required, and whatever differs from the defaults.</summary>
    public static JsonObject Terse(Yard yard)
    {
        JsonObject tree = Full(yard);
        Lawn? implied = LawnFromWire.Lawn(yard.Loop.Path);
        JsonObject silent = Full(new Yard
        {
            Name = yard.Name,
            Lawn = implied ?? yard.Lawn,
            Loop = new Loop { Path = yard.Loop.Path, Conductor = yard.Loop.Conductor, ConductorIsKnown = yard.Loop.ConductorIsKnown },
        });
        bool lawnIsImplied = implied is not null && JsonNode.DeepEquals(tree["lawn"], silent["lawn"]) && JsonNode.DeepEquals(tree["holes"], silent["holes"]);
        if (lawnIsImplied)
        {
            _ = tree.Remove("lawn");
            _ = tree.Remove("holes");
        }

        string[] sections = ["holes", "guides", "station", "mower", "soil", "metal", "neighbours", "riskSpots"];
        foreach (string section in sections)
        {
            RemoveEqual(tree, silent, section, keepEqual: section == "holes" && !lawnIsImplied && yard.Lawn.Holes.Count > 0);
        }

        foreach (string name in (string[])["depthM", "lengthToleranceM", "joints", "capacitancePFPerM"])
        {
            RemoveEqual(tree["loop"]!.AsObject(), silent["loop"]!.AsObject(), name, keepEqual: false);
        }

        return tree;
    }

    /// <summary>Puts what changed between two yards into the document that the first was read from; everything else stays as it is, in its order.</summary>
    public static JsonObject Changed(JsonObject document, Yard before, Yard after)
    {
        JsonObject old = Full(before), changed = Full(after);
        if (!JsonNode.DeepEquals(old["loop"]!["joints"], changed["loop"]!["joints"]) && document["loop"]?["joints"] is JsonArray joints)
        {
            // The reader sorts joints; to tell which is which, so must the document.
            JsonNode?[] sorted = [.. joints.OrderBy(joint => WireIndex(joint!["wire"]?.GetValue<string>())).ThenBy(joint => joint!["atM"]!.GetValue<double>())];
            joints.Clear();
            foreach (JsonNode? joint in sorted)
            {
                joints.Add(joint);
            }
        }

        return (JsonObject)Merged(document, old, changed)!;

        int WireIndex(string? wire) => wire is null ? -1 : before.Guides.TakeWhile(guide => guide.Name != wire).Count();
    }

    private static JsonObject JointTree(Joint joint, string? wire)
    {
        JsonObject tree = new() { ["atM"] = joint.AtMetres, ["style"] = YardWords.Of(joint.Style) };
        if (wire is not null)
        {
            tree["wire"] = wire;
        }

        return tree;
    }

    private static JsonObject GuideTree(GuideWire guide)
    {
        JsonObject tree = new() { ["name"] = guide.Name, ["joinsAtM"] = guide.JoinsAtMetres, ["path"] = Points(guide.Path.Points) };
        if (guide.Conductor is { } conductor)
        {
            tree["conductor"] = ConductorTree(conductor);
        }

        return tree;
    }

    private static JsonNode? Merged(JsonNode? document, JsonNode? before, JsonNode? after)
    {
        if (JsonNode.DeepEquals(before, after))
        {
            return document;
        }

        return (document, before, after) switch
        {
            (JsonObject d, JsonObject b, JsonObject a) => MergedObject(d, b, a),
            (JsonArray d, JsonArray b, JsonArray a) when a.All(item => item is JsonObject) => MergedList(d, b, a),
            _ => after?.DeepClone(),
        };
    }

    private static JsonObject MergedObject(JsonObject document, JsonObject before, JsonObject after)
    {
        foreach ((string name, JsonNode? value) in after)
        {
            JsonNode? old = document[name];
            if (Merged(old, before[name], value) is JsonNode merged && !ReferenceEquals(merged, old))
            {
                document[name] = merged;
            }
        }

        foreach ((string name, _) in before)
        {
            if (!after.ContainsKey(name))
            {
                _ = document.Remove(name);
            }
        }

        return document;
    }

    /// <summary>Items that stayed equal keep all they hold; when as many came as went, those left are matched in order.</summary>
    private static JsonArray MergedList(JsonArray document, JsonArray before, JsonArray after)
    {
        List<int> unused = [.. Enumerable.Range(0, before.Count)];
        int?[] from = new int?[after.Count];
        for (int i = 0; i < after.Count; i++)
        {
            int match = unused.FindIndex(old => JsonNode.DeepEquals(before[old], after[i]));
            if (match >= 0)
            {
                from[i] = unused[match];
                unused.RemoveAt(match);
            }
        }

        if (after.Count == before.Count)
        {
            for (int i = 0; i < after.Count; i++)
            {
                if (from[i] is null)
                {
                    from[i] = unused[0];
                    unused.RemoveAt(0);
                }
            }
        }

        JsonNode?[] items = [.. document];
        document.Clear();
        for (int i = 0; i < after.Count; i++)
        {
            document.Add(from[i] is int old ? Merged(items[old], before[old], after[i]) : after[i]?.DeepClone());
        }

        return document;
    }

    private static void RemoveEqual(JsonObject tree, JsonObject silent, string name, bool keepEqual)
    {
        if (!tree.TryGetPropertyValue(name, out JsonNode? value) || keepEqual)
        {
            return;
        }

        if (JsonNode.DeepEquals(value, silent[name]))
        {
            _ = tree.Remove(name);
        }
        else if (value is JsonObject section && silent[name] is JsonObject defaults)
        {
            foreach (string property in section.Select(property => property.Key).ToArray())
            {
                RemoveEqual(section, defaults, property, keepEqual: false);
            }
        }
    }

    private static JsonObject ConductorTree(Conductor conductor)
    {
        JsonObject tree = new() { ["material"] = YardWords.Of(conductor.Material) };
        Add("areaMm2", Tidy(conductor.AreaSquareMetres * 1e6));
        Add("awg", conductor.Awg);
        Add("ohmsPerKmAt20C", Tidy(conductor.OhmsPerMetreAt20C * 1e3));
        Add("conductivityPercentIacs", Tidy(conductor.ConductivityShareIacs * 100));
        Add("class", conductor.ConductorClass);
        Add("coated", conductor.Coated ? true : null);
        return tree;

        void Add(string name, JsonNode? value)
        {
            if (value is not null)
            {
                tree[name] = value;
            }
        }
    }

    private static JsonArray Points(IReadOnlyList<PlanPoint> points) =>
        Array(points, point => new JsonArray(point.EastMetres, point.NorthMetres));

    private static JsonArray Array<T>(IEnumerable<T> items, Func<T, JsonNode> node) => new([.. items.Select(node)]);

    /// <summary>15 digits: gives back 0.75 where a change of unit and back would leave 0.7499999999999999.</summary>
    private static double? Tidy(double? value) =>
        value is double number ? double.Parse(number.ToString("G15", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) : null;
}
