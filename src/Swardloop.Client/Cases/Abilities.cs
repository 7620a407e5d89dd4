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

    public static JsonElement ToJson(Capabilities can) => Json.Of(new JsonObject
    {
        ["technician"] = can.Technician,
        ["owner"] = can.Owner,
        ["instruments"] = Names(can.TechnicianInstruments),
        ["ownerInstruments"] = Names(can.OwnerInstruments),
    });

    private static JsonArray Names(Instruments instruments) =>
        [.. All.Where(word => instruments.HasFlag(word.Value)).Select(word => JsonValue.Create(word.Key))];
}
