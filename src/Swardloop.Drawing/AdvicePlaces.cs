using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;

namespace Swardloop.Drawing;

/// <summary>The places in an advice: what the strip and the picture show of it.</summary>
/// <param name="Density">Probability of the fault's place along the wire.</param>
/// <param name="Location">Where the fault lies, when one is believed.</param>
/// <param name="Next">Where along the wire the step advised is done; null when it has no place there.</param>
/// <param name="ExtraOhms">Ohms beyond the healthy loop, by the newest reading (Ω); null without one.</param>
public sealed record AdvicePlaces(IReadOnlyList<DensityBin> Density, FaultLocation? Location, WireStretch? Next, double? ExtraOhms)
{
    /// <summary>Nothing known.</summary>
    public static AdvicePlaces None { get; } = new([], null, null, null);

    /// <summary>Reads them from an advice's bytes.</summary>
    /// <param name="adviceUtf8">As <see cref="AdviceJson"/> writes them.</param>
    /// <exception cref="JsonException">No JSON.</exception>
    /// <exception cref="FormatException">No advice of this version.</exception>
    public static AdvicePlaces Read(ReadOnlyMemory<byte> adviceUtf8)
    {
        using JsonDocument document = JsonDocument.Parse(adviceUtf8);
        JsonElement advice = document.RootElement;
        if (advice.ValueKind != JsonValueKind.Object || !advice.TryGetProperty("format", out JsonElement format) || !format.ValueEquals(AdviceJson.Format))
        {
            throw new FormatException($"Not an advice of the form {AdviceJson.Format}.");
        }

        return new(
            [.. advice.GetProperty("density").EnumerateArray().Select(bin => new DensityBin(Number(bin, "fromM"), Number(bin, "toM"), Number(bin, "probability")))],
            advice.GetProperty("location") is { ValueKind: JsonValueKind.Object } location ? ReadLocation(location) : null,
            advice.GetProperty("next").EnumerateArray().Select(Place).FirstOrDefault(),
            advice.GetProperty("excessOhms") is { ValueKind: JsonValueKind.Object } excess ? Number(excess, "median") : null);
    }

    private static FaultLocation ReadLocation(JsonElement location) =>
        WireName.TryReadCause(location.GetProperty("cause").GetString()!, out Cause cause)
            ? new(cause, Number(location, "atM"), Number(location, "lowM"), Number(location, "highM"), Number(location, "credibility"))
            : throw new FormatException("The advice names a cause that is not known.");

    private static WireStretch? Place(JsonElement step) =>
        step.TryGetProperty("atM", out JsonElement at) ? new(at.GetDouble(), at.GetDouble())
        : step.TryGetProperty("fromM", out JsonElement from) && step.TryGetProperty("toM", out JsonElement to) ? new(from.GetDouble(), to.GetDouble())
        : null;

    private static double Number(JsonElement element, string name) => element.GetProperty(name).GetDouble();
}
