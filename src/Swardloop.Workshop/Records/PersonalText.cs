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

    // And of a yard. Its guide wires keep their names: readings refer to them.
    private static readonly HashSet<string> WordsOfYards = new(["format", "material", "class", "style", "wire", "guides", "taken"], StringComparer.Ordinal);

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
                return Emptied(value, WordsOfReadings, texts, null);
            case FieldType.YardFile:
                return Emptied(value, WordsOfYards, texts, "name");
            default:
                return value;
        }
    }

    private static JsonElement Emptied(JsonElement value, HashSet<string> words, List<(string Path, string Text)> texts, string? name)
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
            Clear(tree, member, member, words, texts);
        }

        return texts.Count > before ? Parsed(tree.ToJsonString()) : value;
    }

    private static void Clear(JsonObject parent, string member, string path, HashSet<string> words, List<(string Path, string Text)> texts)
    {
        if (words.Contains(member) && parent[member] is not JsonObject)
        {
            return;
        }

        switch (parent[member])
        {
            case JsonValue value when value.GetValueKind() == JsonValueKind.String:
                texts.Add((path, value.GetValue<string>()));
                parent.Remove(member);
                break;
            case JsonObject inner:
                foreach (string each in inner.Select(one => one.Key).ToList())
                {
                    Clear(inner, each, $"{path}.{each}", words, texts);
                }

                break;
            case JsonArray list:
                Clear(list, path, words, texts);
                break;
        }
    }

    private static void Clear(JsonArray list, string path, HashSet<string> words, List<(string Path, string Text)> texts)
    {
        for (int i = list.Count - 1; i >= 0; i--)
        {
            switch (list[i])
            {
                case JsonValue value when value.GetValueKind() == JsonValueKind.String:
                    texts.Add(($"{path}[{i}]", value.GetValue<string>()));
                    list.RemoveAt(i);
                    break;
                case JsonObject inner:
                    foreach (string each in inner.Select(one => one.Key).ToList())
                    {
                        Clear(inner, each, $"{path}[{i}].{each}", words, texts);
                    }

                    break;
                case JsonArray deeper:
                    Clear(deeper, $"{path}[{i}]", words, texts);
                    break;
            }
        }
    }

    private static JsonElement Parsed(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }
}
