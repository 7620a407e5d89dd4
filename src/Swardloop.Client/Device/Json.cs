using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Client.Device;

/// <summary>Values of fields.</summary>
public static class Json
{
    public static JsonElement Null { get; } = Parse("null");

    public static JsonElement Text(string value) => Of(JsonValue.Create(value));

    public static JsonElement Number(double value) => Of(JsonValue.Create(value));

    public static JsonElement Flag(bool value) => Of(JsonValue.Create(value));

    public static JsonElement Of(JsonNode node) => Parse(node.ToJsonString());

    public static JsonElement Parse(ReadOnlySpan<byte> utf8)
    {
        Utf8JsonReader reader = new(utf8);
        return JsonElement.ParseValue(ref reader);
    }

    public static JsonElement Parse(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }
}
