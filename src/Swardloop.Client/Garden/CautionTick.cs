using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Client.Device;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;

namespace Swardloop.Client.Garden;

/// <summary>A caution that a person ticked. It goes into the record of the step that was done under it.</summary>
/// <param name="Caution">Which caution.</param>
/// <param name="At">When it was ticked.</param>
/// <param name="By">Who ticked it, as the account is called.</param>
public sealed record CautionTick(Caution Caution, DateTimeOffset At, string By)
{
    /// <summary>As a case file holds it, in an observation's <c>ticked</c>.</summary>
    public JsonObject ToJson() => new()
    {
        ["caution"] = WireName.Of(Caution),
        ["at"] = At.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        ["by"] = By,
    };

    /// <summary>A reading with what was ticked for it, each caution once.</summary>
    public static JsonElement Into(JsonElement reading, IEnumerable<CautionTick> ticks)
    {
        JsonObject json = JsonObject.Create(reading)!;
        json["ticked"] = new JsonArray([.. ticks.DistinctBy(tick => tick.Caution).OrderBy(tick => tick.Caution).Select(tick => tick.ToJson())]);
        return Json.Of(json);
    }

    /// <summary>What was ticked for a reading; none where nothing was.</summary>
    public static IReadOnlyList<CautionTick> Of(JsonElement reading)
    {
        try
        {
            return reading.TryGetProperty("ticked", out JsonElement ticked) ? [.. Read(JsonNode.Parse(ticked.GetRawText()))] : [];
        }
        catch (Exception wrong) when (wrong is FormatException or InvalidOperationException)
        {
            return []; // written by other hands
        }
    }

    /// <summary>Ticks that were kept; those of cautions that this build does not have are left out.</summary>
    /// <exception cref="FormatException">A moment is not one.</exception>
    public static IEnumerable<CautionTick> Read(JsonNode? kept)
    {
        foreach (JsonNode? tick in kept is JsonArray ticks ? ticks.Where(each => each is JsonObject) : [])
        {
            string? name = (string?)tick!["caution"];
            foreach ((_, Caution caution) in WireName.Words<Caution>().Where(word => word.Key == name))
            {
                yield return new(caution, DateTimeOffset.Parse((string?)tick["at"] ?? "", CultureInfo.InvariantCulture), (string?)tick["by"] ?? "");
            }
        }
    }
}
