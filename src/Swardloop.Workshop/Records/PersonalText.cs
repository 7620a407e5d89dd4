using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Workshop.Records;

/// <summary>What in a field's value a person wrote freely, and what says where somebody lives: all that can name a person. What is left when it is
/// taken out is physics: numbers, places along a wire, the words of tests and outcomes.</summary>
public static class PersonalText
{
    /// <summary>What stands in the place of a text that a record makes no sense without.</summary>
    public const string Forgotten = "forgotten";

    private static readonly JsonElement Null = Parsed("null");

    // Of an observation these hold words of the format; every other text in it was typed by a person or by another program.
    private static readonly HashSet<string> WordsOfReadings =
        new(["test", "repair", "value", "bound", "by", "at", "from", "kind", "place", "wire", "guide", "conditions", "meter"], StringComparer.Ordinal);

    // And of a yard. The names of its guide wires are replaced apart, since readings refer to them: see Renamed.
    private static readonly HashSet<string> WordsOfYards = new(["format", "material", "class", "style", "wire", "taken", "course"], StringComparer.Ordinal);

    /// <summary>Members that the format of readings knows; all others go as a whole, with their numbers and names.</summary>
    public static IReadOnlySet<string> MembersOfReadings { get; } = new HashSet<string>(
    [
        "at", "atM", "bound", "by", "conditions", "delayNs", "digits", "distanceM", "found", "from", "fromM", "guide", "hertz", "kind", "leadOhms", "loaded", "megohms", "meter",
        "microvolts", "milliamps", "millivolts", "nanofaradA", "nanofaradB", "nearMetal", "nominalVolts", "note", "ohms", "ohmsA", "ohmsB", "percent", "place", "repair",
        "resolutionOhms", "spacingM", "test", "testVolts", "toM", "value", "volts", "voltsA", "voltsB", "wire",
    ], StringComparer.Ordinal);

    /// <summary>Members that the format of yards knows, at any depth.</summary>
    public static IReadOnlySet<string> MembersOfYards { get; } = new HashSet<string>(
    [
        "areaMm2", "atM", "awg", "bearingDeg", "capacitancePFPerM", "class", "coated", "conductivityPercentIacs", "conductor", "course", "courseToleranceM", "datum", "depthM", "earthOhms", "format",
        "frequencyHz", "fromM", "guides", "hasContinuityLamp", "holes", "joinsAtM", "joints", "kind", "lampAlarmOhms", "latitude", "lawn", "lengthToleranceM", "longitude", "loop",
        "material", "metal", "mower", "name", "neighbours", "ohms", "ohmsPerKmAt20C", "path", "reachConstantOhmM", "reachUncertaintyPercent", "resistivityOhmM", "riskSpots",
        "sameCoding", "sensorHeightM", "soil", "sourceOhms", "sourceUncertaintyPercent", "station", "style", "temperatureC", "toM", "weight", "wire",
    ], StringComparer.Ordinal);

    /// <summary>Every such text of a value, with its path in it; empty for the value itself.</summary>
    public static IReadOnlyList<(string Path, string Text)> In(RecordField field, JsonElement value)
    {
        List<(string, string)> texts = [];
        Visit(field, value, texts);
        return texts;
    }

    /// <summary>The value without them; the same element when there is none.</summary>
    public static JsonElement Without(RecordField field, JsonElement value)
    {
        List<(string, string)> texts = [];
        return Visit(field, value, texts);
    }

    /// <summary>The names of guide wires in a yard or a reading that were not replaced yet, with their paths.</summary>
    public static IReadOnlyList<(string Path, string Text)> GuidesIn(RecordField field, JsonElement value)
    {
        List<(string, string)> names = [];
        Rename(field, value, (path, name) =>
        {
            names.Add((path, name));
            return name;
        });
        return names;
    }

    /// <summary>The value with other names of guide wires: a yard and its readings must be given the same.</summary>
    /// <param name="field">Its field.</param>
    /// <param name="value">The value.</param>
    /// <param name="rename">The other name; see <see cref="IsReplaced"/>.</param>
    public static JsonElement Renamed(RecordField field, JsonElement value, Func<string, string> rename) => Rename(field, value, (_, name) => rename(name));

    /// <summary>Whether a guide wire's name stands in the place of one that was forgotten.</summary>
    public static bool IsReplaced(string name) => name.StartsWith($"{Forgotten} ", StringComparison.Ordinal);

    private static JsonElement Rename(RecordField field, JsonElement value, Func<string, string, string> rename)
    {
        if (field.Type is not (FieldType.Observation or FieldType.YardFile) || value.ValueKind != JsonValueKind.Object)
        {
            return value;
        }

        JsonObject tree = JsonNode.Parse(value.GetRawText())!.AsObject();
        if (field.Type == FieldType.Observation)
        {
            Replace(tree, "guide", "guide");
            Replace(tree, "wire", "wire");
        }
        else
        {
            Each(tree, "guides", (guide, path) => Replace(guide, "name", $"{path}.name"));
            if (tree["loop"] is JsonObject loop)
            {
                Each(loop, "joints", (joint, path) => Replace(joint, "wire", $"loop.{path}.wire"));
            }
        }

        return Parsed(tree.ToJsonString());

        void Replace(JsonObject parent, string member, string path)
        {
            if (parent[member] is JsonValue named && named.GetValueKind() == JsonValueKind.String && !IsReplaced(named.GetValue<string>()))
            {
                parent[member] = rename(path, named.GetValue<string>());
            }
        }

        static void Each(JsonObject parent, string member, Action<JsonObject, string> visit)
        {
            if (parent[member] is JsonArray list)
            {
                for (int i = 0; i < list.Count; i++)
                {
                    if (list[i] is JsonObject one)
                    {
                        visit(one, $"{member}[{i}]");
                    }
                }
            }
        }
    }

    private static JsonElement Visit(RecordField field, JsonElement value, List<(string Path, string Text)> texts)
    {
        if (!field.Personal || value.ValueKind is JsonValueKind.Null or JsonValueKind.Undefined)
        {
            return value;
        }

        JsonElement empty = field.Required ? Parsed(JsonSerializer.Serialize(Forgotten, WorkshopJson.Default.String)) : Null;
        switch (field.Type)
        {
            case FieldType.Text:
                if (value.ValueKind != JsonValueKind.String || value.GetString() is "" or Forgotten)
                {
                    return value;
                }

                texts.Add(("", value.GetString()!));
                return empty;
            case FieldType.Position:
                texts.Add(("", value.GetRawText()));
                return Null;
            case FieldType.Observation:
                return Emptied(value, WordsOfReadings, MembersOfReadings, texts, null);
            case FieldType.YardFile:
                return Emptied(value, WordsOfYards, MembersOfYards, texts, "name");
            default:
                return value;
        }
    }

    private static JsonElement Emptied(JsonElement value, HashSet<string> words, IReadOnlySet<string> members, List<(string Path, string Text)> texts, string? name)
    {
        if (value.ValueKind != JsonValueKind.Object)
        {
            return value;
        }

        JsonObject tree = JsonNode.Parse(value.GetRawText())!.AsObject();
        int before = texts.Count;
        if (tree["datum"] is JsonObject datum && name is not null)
        {
            texts.Add(("datum", datum.ToJsonString()));
            tree.Remove("datum");
        }

        if (name is not null && tree[name] is JsonValue named && named.GetValueKind() == JsonValueKind.String && named.GetValue<string>() != Forgotten)
        {
            texts.Add((name, named.GetValue<string>()));
            tree[name] = Forgotten;
        }

        foreach (string member in tree.Select(member => member.Key).Where(member => member != name).ToList())
        {
            Clear(tree, member, member, new(words, members, texts));
        }

        return texts.Count > before ? Parsed(tree.ToJsonString()) : value;
    }

    private static void Clear(JsonObject parent, string member, string path, Format format)
    {
        if (!format.Members.Contains(member))
        {
            // What it is only its writer knows: a name may stand in its own name, a telephone be a number.
            format.Texts.Add((path, $"{member}: {parent[member]?.ToJsonString() ?? "null"}"));
            parent.Remove(member);
            return;
        }

        if ((format.Words.Contains(member) && parent[member] is not JsonObject) || IsGuideName(path))
        {
            return;
        }

        switch (parent[member])
        {
            case JsonValue value when value.GetValueKind() == JsonValueKind.String:
                format.Texts.Add((path, value.GetValue<string>()));
                parent.Remove(member);
                break;
            case JsonObject inner:
                foreach (string each in inner.Select(one => one.Key).ToList())
                {
                    Clear(inner, each, $"{path}.{each}", format);
                }

                break;
            case JsonArray list:
                Clear(list, path, format);
                break;
        }
    }

    private static void Clear(JsonArray list, string path, Format format)
    {
        for (int i = list.Count - 1; i >= 0; i--)
        {
            switch (list[i])
            {
                case JsonValue value when value.GetValueKind() == JsonValueKind.String:
                    format.Texts.Add(($"{path}[{i}]", value.GetValue<string>()));
                    list.RemoveAt(i);
                    break;
                case JsonObject inner:
                    foreach (string each in inner.Select(one => one.Key).ToList())
                    {
                        Clear(inner, each, $"{path}[{i}].{each}", format);
                    }

                    break;
                case JsonArray deeper:
                    Clear(deeper, $"{path}[{i}]", format);
                    break;
            }
        }
    }

    private static bool IsGuideName(string path) =>
        path.StartsWith("guides[", StringComparison.Ordinal) && path.EndsWith("].name", StringComparison.Ordinal) && path.IndexOf(']', StringComparison.Ordinal) == path.Length - "].name".Length;

    /// <summary>What a format knows, and what was found that it does not.</summary>
    private readonly record struct Format(HashSet<string> Words, IReadOnlySet<string> Members, List<(string Path, string Text)> Texts);

    private static JsonElement Parsed(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }
}
