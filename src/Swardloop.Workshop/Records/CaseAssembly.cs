using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Workshop.Records;

/// <summary>Puts a case file together from the workshop's records: what the app shows, exports and hands to the command line is this one
/// file, so that all give the same advice.</summary>
public static class CaseAssembly
{
    /// <summary>The case as a file, yard inside.</summary>
    /// <param name="case">The case.</param>
    /// <param name="yard">Its yard.</param>
    /// <param name="observations">All observations of the case, in any order.</param>
    /// <param name="rates">The workshop's rates; null for the stated defaults.</param>
    /// <param name="shelf">Yards read before: the same file gives the same yard, whose physics need not be computed again.</param>
    /// <returns>The file, or what is wrong with the records, such as a place beyond the end of a wire that was redrawn.</returns>
    public static Checked<CaseFile> CaseFileOf(
        RecordState @case, RecordState yard, IEnumerable<RecordState> observations, RecordState? rates, YardShelf? shelf = null) =>
        CaseFile.Read(
            JsonSerializer.SerializeToUtf8Bytes(Tree(@case, yard, ObservationOrder.ThatCount(observations), rates), WorkshopJson.Default.JsonObject),
            "case", _ => null, shelf);

    /// <summary>The file as a tree; the observations are those that count, in order.</summary>
    internal static JsonObject Tree(RecordState @case, RecordState yard, IReadOnlyList<RecordState> observations, RecordState? rates)
    {
        JsonObject tree = new()
        {
            ["format"] = CaseFile.Format,
            ["yard"] = Node(yard.Value("file")),
        };
        if (@case.Text("complaint") is { Length: > 0 } complaint)
        {
            tree["complaint"] = complaint;
        }

        JsonObject charged = [];
        foreach (string name in (string[])["labourPerHour", "travelPerVisit", "ownerPatiencePerHour", "currency", "steps"])
        {
            if (rates?.Value(name) is { } rate)
            {
                charged[name] = Node(rate);
            }
        }

        if (charged.Count > 0)
        {
            tree["rates"] = charged;
        }

        tree["onSite"] = @case.Flag("onSite");
        if (@case.Value("can") is { } can)
        {
            tree["can"] = Node(can);
        }

        // What the workshop never does, no case of it does.
        string[] never = rates?.Text("without")?.Split(' ', StringSplitOptions.RemoveEmptyEntries) ?? [];
        if (never.Length > 0)
        {
            JsonObject own = tree["can"] as JsonObject ?? [];
            IEnumerable<string> here = (own["without"] as JsonArray)?.Select(step => step?.GetValueKind() == JsonValueKind.String ? step.GetValue<string>() : "") ?? [];
            own["without"] = new JsonArray([.. here.Where(step => step.Length > 0).Union(never).Select(step => (JsonNode)JsonValue.Create(step))]);
            tree["can"] = own;
        }

        JsonArray readings = [.. observations.Select(observation => Node(observation.Value("reading")))];
        tree["observations"] = readings;
        return tree;
    }

    private static JsonNode? Node(JsonElement? value) => value is { } element ? JsonNode.Parse(element.GetRawText()) : null;
}
