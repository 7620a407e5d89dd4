using Swardloop.Client.Wording;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>A change in a line: which record, which fields, which values.</summary>
public static class ChangeWords
{
    public static string Line(Change change, Speech say, Replica replica) =>
        $"{say.Fields[change.Kind]}{Named(change, replica)}: {string.Join("; ", Sets(change, say, replica))}";

    /// <summary>Each field set, with its new value.</summary>
    public static IEnumerable<string> Sets(Change change, Speech say, Replica replica) =>
        change.Set.Where(set => !IsPlumbing(set.Key))
            .Select(set => $"{say.Fields.Label(change.Kind, set.Key)} → {FieldWords.Of(change.Kind, set.Key, set.Value, say, replica)}");

    private static bool IsPlumbing(string field) => field is "after" or "corrects";

    private static string Named(Change change, Replica replica)
    {
        RecordState? record = replica[change.Record];
        string? name = record?.Text("name") ?? (record?.Reference("yard") is { } yard ? replica[yard]?.Text("name") : null);
        return name is null ? "" : $" {name}";
    }
}
