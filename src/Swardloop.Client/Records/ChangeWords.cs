using Swardloop.Client.Wording;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>A change in a line: which record, which fields, which values.</summary>
public static class ChangeWords
{
    public static string Line(Change change, Speech say, Replica replica) =>
        $"{say.Fields[change.Kind]}{Named(change, replica)}: {string.Join("; ", Sets(change, say, replica))}";

    /// <summary>Whether it says anything to a person.</summary>
    public static bool Says(Change change) => change.Set.Keys.Any(field => !IsPlumbing(field));

    /// <summary>Each field set, with its new value.</summary>
    public static IEnumerable<string> Sets(Change change, Speech say, Replica replica) =>
        change.Set.Where(set => !IsPlumbing(set.Key))
            .Select(set => $"{say.Fields.Label(change.Kind, set.Key)} → {FieldWords.Of(change.Kind, set.Key, set.Value, say, replica, set.Key == "reading" ? YardOf(change, replica) : null)}");

    private static bool IsPlumbing(string field) => field is "after" or "corrects" or "lookedAt" or "secretHash";

    // The yard of an observation, by which its places are told.
    private static Yard? YardOf(Change change, Replica replica)
    {
        ProblemList problems = new("");
        return change.Kind == RecordKind.Observation && replica[change.Record]?.Reference("yard") is { } yard && replica[yard]?.Value("file") is { } file
            ? YardFile.Read(file, "", problems)?.Yard
            : null;
    }

    private static string Named(Change change, Replica replica)
    {
        RecordState? record = replica[change.Record];
        string? name = record?.Text("name") ?? (record?.Reference("yard") is { } yard ? replica[yard]?.Text("name") : null);
        return name is null ? "" : $" {name}";
    }
}
