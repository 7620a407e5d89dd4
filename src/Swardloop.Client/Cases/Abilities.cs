using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

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

    private static JsonArray Names(Instruments instruments) =>
        [.. All.Where(word => instruments.HasFlag(word.Value)).Select(word => JsonValue.Create(word.Key))];
}
