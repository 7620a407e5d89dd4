using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Model.Checks;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>Takes changes in: each once, each in a transaction of its own, numbered in the order in which readers see them.</summary>
public sealed class Journal(
    IDbContextFactory<WorkshopDatabase> databases, IDatabaseEngine engine, ChangeNews news, WriteTurn turn, TimeProvider clock)
{
    private long _lastVersion;

    /// <summary>Takes in one change.</summary>
    /// <param name="change">The change.</param>
    /// <param name="place">Its place in what was handed in, for problems.</param>
    /// <param name="author">Who hands it in.</param>
    /// <param name="cancellation">Gives up before the change is written, never in between.</param>
    /// <returns>What became of it. <see cref="ChangeStatus.Kept"/> means: on the disk.</returns>
    public async Task<ChangeResult> TakeInAsync(Change change, string place, Author author, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        (ChangeResult result, ChangeNotice? notice) = await WriteAsync(database, change, place, author, clock.GetUtcNow(), cancellation);
        if (notice is null)
        {
            return result; // nothing was written; the transaction is rolled back
        }

        // Numbers only grow: one that was given before is of a copy, older than what was answered as kept, in the database's place.
        if (notice.Version <= _lastVersion)
        {
            throw new DatabaseReplacedException("an older copy was put in the place of the database while the server ran: nothing more is kept until it is stopped");
        }

        await engine.AnnounceAsync(database, notice, cancellation);
        await transaction.CommitAsync(CancellationToken.None);
        _lastVersion = notice.Version; // this process writes one after the other
        if (!engine.BringsNews)
        {
            news.Tell(notice);
        }

        return result;
    }

    /// <summary>Fills an empty workshop in one transaction, with the times given instead of now. Nobody is told.</summary>
    /// <param name="changes">Changes with their authors and the times at which they are to have been taken in.</param>
    /// <param name="cancellation">Ends the work; nothing is written then.</param>
    /// <exception cref="InvalidOperationException">A change is refused.</exception>
    public async Task FillAsync(IEnumerable<(Change Change, Author Author, DateTimeOffset TakenAt)> changes, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        foreach ((Change change, Author author, DateTimeOffset takenAt) in changes)
        {
            (ChangeResult result, _) = await WriteAsync(database, change, "", author, takenAt, cancellation);
            if (result.Status == ChangeStatus.Refused)
            {
                throw new InvalidOperationException($"{change.Kind}: {string.Join("; ", result.Problems)}");
            }

            database.ChangeTracker.Clear();
        }

        await transaction.CommitAsync(cancellation);
    }

    /// <summary>A stored record's state.</summary>
    public static RecordState StateOf(StoredRecord stored) => JsonSerializer.Deserialize(stored.Json, WorkshopJson.Default.RecordState)!;

    private static async Task<(ChangeResult Result, ChangeNotice? Written)> WriteAsync(
        WorkshopDatabase database, Change change, string place, Author author, DateTimeOffset now, CancellationToken cancellation)
    {
        // First of all, so that the row is held until the end: see WorkshopMark.LastVersion.
        await database.Mark.ExecuteUpdateAsync(mark => mark.SetProperty(one => one.LastVersion, one => one.LastVersion + 1), cancellation);
        ProblemList problems = new("");
        if (await database.Journal.AsNoTracking().FirstOrDefaultAsync(entry => entry.Change == change.Id, cancellation) is { } earlier)
        {
            return (await AgainAsync(database, change, earlier, place, cancellation), null);
        }

        StoredRecord? stored = await database.Records.FirstOrDefaultAsync(record => record.Id == change.Record, cancellation);
        RecordState before = stored is null ? RecordState.New(change.Record, change.Kind) : StateOf(stored);
        if (!RecordRights.MayWrite(author.Role, change.Kind))
        {
            problems.Add(place, "your role may not change such records", "a role that may");
        }
        else
        {
            ChangeChecks.Check(change, before, place, problems);
        }

        RecordPlaces places = new(database);
        if (!problems.Any)
        {
            await places.CheckAsync(change, before, place, problems, cancellation);
        }

        if (problems.Any)
        {
            return (Refused(change, problems), null);
        }

        long version = await database.Mark.Select(mark => mark.LastVersion).SingleAsync(cancellation);
        RecordState after = before.With(change, author.Name, version);
        if (stored is null)
        {
            stored = new() { Id = change.Record, Kind = change.Kind };
            database.Records.Add(stored);
        }

        stored.Version = version;
        stored.Json = JsonSerializer.Serialize(after, WorkshopJson.Default.RecordState);
        await places.PlaceAsync(stored, after, cancellation);
        await places.CheckForgottenAsync(stored, change, after, place, problems, cancellation);
        if (problems.Any)
        {
            return (Refused(change, problems), null);
        }

        database.Journal.Add(new()
        {
            Version = version,
            Change = change.Id,
            Record = change.Record,
            Kind = change.Kind,
            By = author.Name,
            TakenAt = now,
            Json = JsonSerializer.Serialize(change, WorkshopJson.Default.Change),
        });
        await database.SaveChangesAsync(cancellation);
        await new Lines(database).UpdateAsync(stored, after, now, cancellation);
        await database.SaveChangesAsync(cancellation);
        return (new(change.Id, StatusOf(change, after), [], after), new(version, change.Record, change.Kind));
    }

    private static async Task<ChangeResult> AgainAsync(
        WorkshopDatabase database, Change change, JournalEntry earlier, string place, CancellationToken cancellation)
    {
        Change known = JsonSerializer.Deserialize(earlier.Json, WorkshopJson.Default.Change)!;
        if (!IsSame(known, change))
        {
            ProblemList problems = new("");
            problems.Add(place.Length == 0 ? "id" : $"{place}.id", "is the id of another change that came before", "a new UUID of version 7");
            return Refused(change, problems);
        }

        StoredRecord stored = await database.Records.AsNoTracking().SingleAsync(record => record.Id == earlier.Record, cancellation);
        RecordState state = StateOf(stored);
        return new(change.Id, StatusOf(change, state), [], state);
    }

    // What was erased as personal data, places in a yard's file included, cannot be compared any more; the set of fields can.
    private static bool IsSame(Change known, Change change) =>
        known.Record == change.Record && known.Kind == change.Kind && known.Set.Count == change.Set.Count
        && known.Set.All(field => change.Set.TryGetValue(field.Key, out JsonElement value)
            && (JsonElement.DeepEquals(field.Value, value) || RecordFields.Of(change.Kind)[field.Key].Personal));

    private static ChangeStatus StatusOf(Change change, RecordState state) =>
        change.Set.Keys.Any(field => state[field].IsInConflict) ? ChangeStatus.Conflict : ChangeStatus.Kept;

    private static ChangeResult Refused(Change change, ProblemList problems) => new(
        change.Id, ChangeStatus.Refused, [.. problems.Kept.Select(problem => new FieldProblem(problem.Place, problem.Message, problem.Allowed))], null);
}
