using System.Text.Json;
using Swardloop.Client.Wording;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Cases;

/// <summary>A visit as a calendar shows it, from the records on this device.</summary>
public static class VisitEntry
{
    /// <summary>The entry: yard, complaint, who to call, where to.</summary>
    public static CalendarVisit Of(RecordState visit, Replica replica, Speech say)
    {
        RecordState? yard = visit.Reference("yard") is { } id ? replica[id] : null;
        RecordState? owner = yard?.Reference("owner") is { } ownerId ? replica[ownerId] : null;
        RecordState? @case = visit.Reference("case") is { } caseId ? replica[caseId] : null;
        string[] person = [.. new[] { owner?.Text("name"), owner?.Text("phone") }.OfType<string>().Where(text => text.Length > 0)];
        return new(
            visit,
            say.Texts.VisitSummary(yard?.Text("name") ?? say.Texts.UnknownYard),
            [.. new[] { @case?.Text("complaint"), string.Join(", ", person), visit.Text("who"), visit.Text("note") }.OfType<string>()],
            yard?.Text("address") is { Length: > 0 } address ? address : owner?.Text("address"),
            PositionOf(yard?.Value("file")));
    }

    // Only the two numbers are wanted; a drawing that is wrong elsewhere is no matter here.
    private static (double, double)? PositionOf(JsonElement? file) =>
        file is { ValueKind: JsonValueKind.Object } yard && yard.TryGetProperty("datum", out JsonElement datum) && datum.ValueKind == JsonValueKind.Object
            && datum.TryGetProperty("latitude", out JsonElement north) && north.ValueKind == JsonValueKind.Number
            && datum.TryGetProperty("longitude", out JsonElement east) && east.ValueKind == JsonValueKind.Number
            ? (north.GetDouble(), east.GetDouble()) : null;
}
