using System.Globalization;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Cases;

/// <summary>Today's work from the records on this device, so that the bench is the same without reception. What was advised the last time the
/// server was heard stands beside it.</summary>
public static class BenchList
{
    /// <summary>Open cases, in the order in which promise or patience runs out: promised for today or earlier, the oldest promise first; then those
    /// with new answers of the owner; then the others, whoever has waited longest since the last news first. The server's bench has the same order.</summary>
    public static IReadOnlyList<BenchEntry> Cases(Replica replica, Bench? heard, DateOnly today)
    {
        Dictionary<Guid, BenchEntry> advised = heard?.Cases.ToDictionary(entry => entry.Case) ?? [];
        return
        [
            .. replica.OfKind(RecordKind.Case).Where(@case => @case.Text("state") != "closed" && !@case.Flag("archived"))
                .Select(@case => Entry(@case, replica, advised.GetValueOrDefault(@case.Id)))
                .OrderBy(entry => Rank(entry, today))
                .ThenBy(entry => Rank(entry, today) == 0 ? entry.PromisedOn : null)
                .ThenBy(entry => entry.LastNewsAt ?? entry.OpenedAt)
                .ThenBy(entry => entry.Case),
        ];
    }

    /// <summary>Visits of today, overdue ones, and those of the next days.</summary>
    public static IReadOnlyList<RecordState> Visits(Replica replica, DateOnly today, int days) =>
    [
        .. replica.OfKind(RecordKind.Visit).Where(visit => !visit.Flag("done") && !visit.Flag("archived") && Day(visit.Text("on")) is { } on && on <= today.AddDays(days))
            .OrderBy(visit => visit.Text("on") ?? "", StringComparer.Ordinal).ThenBy(visit => visit.Text("at") ?? "99", StringComparer.Ordinal),
    ];

    /// <summary>A day as records hold it.</summary>
    public static DateOnly? Day(string? text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day) ? day : null;

    private static int Rank(BenchEntry entry, DateOnly today) => entry.PromisedOn <= today ? 0 : entry.NewFromOwner > 0 ? 1 : 2;

    private static BenchEntry Entry(RecordState @case, Replica replica, BenchEntry? advised)
    {
        RecordState? yard = @case.Reference("yard") is { } id ? replica[id] : null;
        RecordState? owner = yard?.Reference("owner") is { } ownerId ? replica[ownerId] : null;
        RecordState[] observations = yard is null ? [] :
            [.. replica.OfYard(yard.Id, RecordKind.Observation).Where(observation => observation.Reference("case") == @case.Id)];
        return new(
            @case.Id, yard?.Id ?? Guid.Empty, yard?.Text("name") ?? "", owner?.Text("name"), @case.Text("complaint") ?? "", @case.Text("state") ?? "open",
            Moment(@case.Text("openedAt")) ?? @case["yard"].Shown?.MadeAt ?? DateTimeOffset.UnixEpoch, Day(@case.Text("promisedOn")),
            observations.Length > 0 ? observations.Max(observation => observation["reading"].Shown?.MadeAt) : null,
            NewFromOwner(@case, observations), advised?.Cause, advised?.Probability, advised?.NextStep, advised?.NextBy, advised?.ExpectedCost,
            @case.Conflicts.Any() || yard?.Conflicts.Any() == true);
    }

    /// <summary>Owner's answers after the last observation that a person of the workshop has looked at.</summary>
    public static int NewFromOwner(RecordState @case, IEnumerable<RecordState> observations)
    {
        Guid? lookedAt = @case.Reference("lookedAt");
        IReadOnlyList<RecordState> ordered = ObservationOrder.Sort(observations);
        int from = lookedAt is null ? 0 : 1 + ordered.ToList().FindIndex(observation => observation.Id == lookedAt);
        return ordered.Skip(from).Count(observation => observation["reading"].Shown is { By: "owner" });
    }

    private static DateTimeOffset? Moment(string? text) =>
        DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset at) ? at : null;
}
