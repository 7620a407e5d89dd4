using System.Text.Json;
using Swardloop.Model.Cases;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>The last loop resistance read on a yard.</summary>
public static class LastReading
{
    /// <summary>Finds it among all observations of a yard.</summary>
    /// <param name="observations">Of all its cases and of none, in any order.</param>
    /// <returns>The loop's resistance, leads taken off (Ω), and when it was read; nulls when there is no reading, it was over range, or the
    /// wire was mended since.</returns>
    public static (double? Ohms, DateTimeOffset? ReadAt) Of(IEnumerable<RecordState> observations)
    {
        foreach (RecordState observation in ObservationOrder.ThatCount(observations).Reverse())
        {
            if (observation.Value("reading") is not { ValueKind: JsonValueKind.Object } reading)
            {
                continue;
            }

            if (reading.TryGetProperty("repair", out _) || IsTest(reading, "split-resistance"))
            {
                return (null, null);
            }

            if (IsTest(reading, "loop-resistance"))
            {
                double lead = Number(reading, "leadOhms") ?? ObservationJson.DefaultLeadOhms;
                double? ohms = Number(reading, "ohms") is { } shown ? Math.Max(0, shown - lead) : null;
                return (ohms, reading.TryGetProperty("at", out JsonElement at) && at.ValueKind == JsonValueKind.String
                    && at.TryGetDateTimeOffset(out DateTimeOffset moment) ? moment.ToUniversalTime() : null);
            }
        }

        return (null, null);
    }

    private static bool IsTest(JsonElement reading, string test) =>
        reading.TryGetProperty("test", out JsonElement named) && named.ValueKind == JsonValueKind.String && named.ValueEquals(test);

    private static double? Number(JsonElement reading, string name) =>
        reading.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.Number ? value.GetDouble() : null;
}
