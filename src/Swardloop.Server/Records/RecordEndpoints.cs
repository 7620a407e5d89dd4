using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Records;

/// <summary>Reads records: one by one, by yard, or all that changed.</summary>
internal static class RecordEndpoints
{
    private const int OrdinaryPage = 500, MostInPage = 2000;

    /// <summary>Adds the endpoints.</summary>
    public static void MapRecords(this RouteGroupBuilder api)
    {
        api.MapGet("records", PageAsync).RequireAuthorization(Rule.Read).Produces<RecordPage>().Problems(400);
        api.MapGet("records/{id:guid}", OneAsync).RequireAuthorization(Rule.Read).Produces<RecordState>().Problems(404);
        api.MapGet("records/{id:guid}/history", HistoryAsync).RequireAuthorization(Rule.Read).Produces<IReadOnlyList<HistoryEntry>>().Problems(404);
        api.MapGet("yards/{id:guid}/bundle", (Guid id, WorkshopDatabase database, CancellationToken cancellation) =>
            BundleAsync(id, RecordKind.Yard, database, cancellation)).RequireAuthorization(Rule.Read).Produces<YardBundle>().Problems(404);
        api.MapGet("cases/{id:guid}/bundle", (Guid id, WorkshopDatabase database, CancellationToken cancellation) =>
            BundleAsync(id, RecordKind.Case, database, cancellation)).RequireAuthorization(Rule.Read).Produces<YardBundle>().Problems(404);
    }

    /// <summary>A stored record of a kind.</summary>
    /// <exception cref="BadInputException">There is none.</exception>
    public static async Task<StoredRecord> FindAsync(WorkshopDatabase database, Guid id, RecordKind? kind, CancellationToken cancellation) =>
        await database.Records.AsNoTracking().FirstOrDefaultAsync(record => record.Id == id && (kind == null || record.Kind == kind), cancellation)
        ?? throw new BadInputException(StatusCodes.Status404NotFound, "There is no such record.", []);

    private static async Task<IResult> PageAsync(WorkshopDatabase database, string? since, string? limit, CancellationToken cancellation)
    {
        long from = Query.WholeNumber("since", since, 0, long.MaxValue) ?? 0;
        int most = (int)(Query.WholeNumber("limit", limit, 1, MostInPage) ?? OrdinaryPage);
        List<StoredRecord> page = await database.Records.AsNoTracking().Where(record => record.Version > from)
            .OrderBy(record => record.Version).Take(most).ToListAsync(cancellation);
        return new JsonParts(json =>
        {
            json.WriteStartObject();
            json.WriteStartArray("records");
            foreach (StoredRecord record in page)
            {
                json.WriteRawValue(record.Json, skipInputValidation: true);
            }

            json.WriteEndArray();
            json.WriteNumber("next", page.Count > 0 ? page[^1].Version : from);
            json.WriteBoolean("complete", page.Count < most);
            json.WriteEndObject();
        });
    }

    private static async Task<ContentHttpResult> OneAsync(Guid id, WorkshopDatabase database, CancellationToken cancellation) =>
        TypedResults.Text((await FindAsync(database, id, null, cancellation)).Json, "application/json");

    private static async Task<Ok<IReadOnlyList<HistoryEntry>>> HistoryAsync(Guid id, WorkshopDatabase database, CancellationToken cancellation)
    {
        List<JournalEntry> entries = await database.Journal.AsNoTracking().Where(entry => entry.Record == id)
            .OrderBy(entry => entry.Version).ToListAsync(cancellation);
        return entries.Count == 0
            ? throw new BadInputException(StatusCodes.Status404NotFound, "There is no such record.", [])
            : TypedResults.Ok<IReadOnlyList<HistoryEntry>>([.. entries.Select(entry => new HistoryEntry(
                entry.Version, entry.By, entry.TakenAt, JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!))]);
    }

    private static async Task<IResult> BundleAsync(Guid id, RecordKind kind, WorkshopDatabase database, CancellationToken cancellation)
    {
        // Read first: what is newer in the bundle is asked for again, what is older never.
        long version = await database.Mark.Select(mark => mark.LastVersion).SingleAsync(cancellation);
        StoredRecord named = await FindAsync(database, id, kind, cancellation);
        StoredRecord yard = kind == RecordKind.Yard ? named : await FindAsync(database, named.Yard ?? Guid.Empty, RecordKind.Yard, cancellation);
        RecordState state = Journal.StateOf(yard);
        Guid?[] beside = [state.Reference("owner"), state.Reference("profile")];
        List<StoredRecord> records = await database.Records.AsNoTracking()
            .Where(record => (record.Yard == yard.Id && record.Id != yard.Id) || beside.Contains(record.Id))
            .OrderBy(record => record.Version).ToListAsync(cancellation);
        return new JsonParts(json =>
        {
            json.WriteStartObject();
            json.WriteNumber("version", version);
            json.WritePropertyName("yard");
            json.WriteRawValue(yard.Json, skipInputValidation: true);
            json.WriteStartArray("records");
            foreach (StoredRecord record in records)
            {
                json.WriteRawValue(record.Json, skipInputValidation: true);
            }

            json.WriteEndArray();
            json.WriteEndObject();
        });
    }
}
