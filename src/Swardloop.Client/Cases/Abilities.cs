using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Cases;

/// <summary>A case's <c>can</c>: who can do what, between its JSON and what the form shows.</summary>
public static class Abilities
{
    /// <summary>What a case without a word on it is taken for.</summary>
    public static Capabilities Default { get; } = new();

    /// <summary>Instruments that can be at hand.</summary>
    public static IReadOnlyList<KeyValuePair<string, Instruments>> All { get; } =
        [.. WireName.Words<Instruments>().Where(word => word.Value != Instruments.None)];

    public static JsonElement ToJson(Capabilities can)
    {
        JsonObject json = new()
        {
            ["technician"] = can.Technician,
            ["owner"] = can.Owner,
            ["instruments"] = Names(can.TechnicianInstruments),
            ["ownerInstruments"] = Names(can.OwnerInstruments),
        };
        if (can.Without.Count > 0)
        {
            json["without"] = new JsonArray([.. can.Without.Kinds.Select(kind => (JsonNode)JsonValue.Create(WireName.Of(kind)))]);
        }

        return Json.Of(json);
    }

    /// <summary>A case's <c>can</c> as a person reads it.</summary>
    public static string Words(JsonElement can, Speech say)
    {
        if (can.ValueKind != JsonValueKind.Object)
        {
            return say.Texts.ARecord;
        }

        List<string> words = [];
        if (!can.TryGetProperty("technician", out JsonElement technician) || technician.ValueKind != JsonValueKind.False)
        {
            words.Add(Held("instruments") is { Length: > 0 } ours ? $"{say.Texts.WeCanCome} ({ours})" : say.Texts.WeCanCome);
        }

        if (!can.TryGetProperty("owner", out JsonElement owner) || owner.ValueKind != JsonValueKind.False)
        {
            words.Add(Held("ownerInstruments") is { Length: > 0 } theirs ? $"{say.Texts.OwnerHelps} ({theirs})" : say.Texts.OwnerHelps);
        }

        return words.Count > 0 ? string.Join("; ", words) : say.Texts.No;

        string Held(string name) => can.TryGetProperty(name, out JsonElement held) && held.ValueKind == JsonValueKind.Array
            ? string.Join(", ", held.EnumerateArray().Select(each => say.Fields.Word(RecordKind.Instrument, "type", each.GetString() ?? "")))
            : "";
    }

    private static JsonArray Names(Instruments instruments) =>
        [.. All.Where(word => instruments.HasFlag(word.Value)).Select(word => JsonValue.Create(word.Key))];
}
