using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Client.Records;

/// <summary>What is typed in a field and not yet kept, as the device's drafts hold it.</summary>
/// <param name="Typed">What stands in the field.</param>
/// <param name="Over">What stood there when the typing began.</param>
public sealed record TypedText(string Typed, string Over)
{
    /// <summary>As a text to keep.</summary>
    public string ToText() => new JsonObject { ["typed"] = Typed, ["over"] = Over }.ToJsonString();

    /// <summary>What was kept; null for nothing, or nothing that can be read.</summary>
    public static TypedText? Read(string? text)
    {
        try
        {
            return text is not null && JsonNode.Parse(text) is JsonObject kept && (string?)kept["typed"] is { } typed && (string?)kept["over"] is { } over ? new(typed, over) : null;
        }
        catch (Exception wrong) when (wrong is JsonException or InvalidOperationException)
        {
            return null; // a draft of another build
        }
    }
}
