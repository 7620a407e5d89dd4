using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Cases;
using Swardloop.Server.Accounts;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Watching;

/// <summary>The watch list, page by page, and one yard of it.</summary>
internal static class WatchEndpoints
{
    private const int OrdinaryPage = 50, MostInPage = 200;

    /// <summary>Adds the endpoints.</summary>
    public static void MapWatch(this RouteGroupBuilder api)
    {
        api.MapGet("watch", ListAsync).RequireAuthorization(Rule.Read).Produces<WatchPage>().Problems(400);
        api.MapGet("yards/{id:guid}/outlook", YardAsync).RequireAuthorization(Rule.Read).Produces<YardOutlook>().Problems(404);
    }

    private static async Task<Ok<WatchPage>> ListAsync(WorkshopDatabase database, TimeProvider clock, string? by, string? after, string? limit, CancellationToken cancellation)
    {
        bool byFivePercent = by is null or "weakest" or "five-percent" ? by == "five-percent" : throw BadInputException.Of("by", "is not known", "weakest, five-percent");
        string from = after is null ? "" : after.Length <= 60 && after.All(char.IsAsciiLetterOrDigit) ? after : throw BadInputException.Of("after", "is no place of the list", "the \"next\" of an earlier page");
        int most = (int)(Query.WholeNumber("limit", limit, 1, MostInPage) ?? OrdinaryPage);
        IQueryable<WatchLine> lines = database.Watch.AsNoTracking().Where(line => database.Yards.Any(yard => yard.Yard == line.Yard && !yard.IsArchived));
#pragma warning disable CA1310 // Compared by the database, in the order in which it sorts the same column.
        IQueryable<WatchLine> ordered = byFivePercent
            ? lines.Where(line => string.Compare(line.ByFivePercent, from) > 0).OrderBy(line => line.ByFivePercent)
            : lines.Where(line => string.Compare(line.ByWeakest, from) > 0).OrderBy(line => line.ByWeakest);
#pragma warning restore CA1310
        List<WatchEntry> page = await EntriesAsync(database, ordered.Take(most), byFivePercent, clock, cancellation);
        int total = await database.Yards.CountAsync(yard => !yard.IsArchived, cancellation), computing = await database.Watch.CountAsync(line => line.StaleSince != null, cancellation);
        Guid last = page.Count > 0 ? page[^1].Yard : Guid.Empty;
        string? next = page.Count < most ? null
            : await database.Watch.Where(line => line.Yard == last).Select(line => byFivePercent ? line.ByFivePercent : line.ByWeakest).SingleAsync(cancellation);
        return TypedResults.Ok(new WatchPage(page, next, total, computing));
    }

    private static async Task<Ok<YardOutlook>> YardAsync(Guid id, WorkshopDatabase database, TimeProvider clock, CancellationToken cancellation)
    {
        WatchEntry entry = (await EntriesAsync(database, database.Watch.AsNoTracking().Where(line => line.Yard == id), false, clock, cancellation)).SingleOrDefault()
            ?? throw new BadInputException(StatusCodes.Status404NotFound, "There is no such yard.", []);
        string? forecast = await database.Watch.Where(line => line.Yard == id).Select(line => line.Forecast).SingleAsync(cancellation);
        return TypedResults.Ok(new YardOutlook(entry, forecast is null ? null : JsonSerializer.Deserialize(forecast, WorkshopJson.Default.OutlookForecast)));
    }

    private static async Task<List<WatchEntry>> EntriesAsync(WorkshopDatabase database, IQueryable<WatchLine> lines, bool byFivePercent, TimeProvider clock, CancellationToken cancellation)
    {
        DateOnly today = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        var read = await (
            from line in lines
            join yard in database.Yards.AsNoTracking() on line.Yard equals yard.Yard
            join owner in database.Owners.AsNoTracking() on yard.Owner equals owner.Owner into itsOwner
            from owner in itsOwner.DefaultIfEmpty()
            select new
            {
                line.Yard,
                line.State,
                line.Weakest,
                line.FivePercent,
                line.Counted,
                line.Readings,
                line.LastReadOn,
                line.IsOdd,
                line.StaleSince,
                line.ByWeakest,
                line.ByFivePercent,
                yard.Name,
                yard.Address,
                OwnerName = owner == null ? null : owner.Name,
                VisitOn = database.Visits.Where(visit => visit.Yard == line.Yard && visit.IsPlanned && visit.On >= today).Min(visit => (DateOnly?)visit.On),
            }).ToListAsync(cancellation);
        return [.. read.OrderBy(one => byFivePercent ? one.ByFivePercent : one.ByWeakest, StringComparer.Ordinal).Select(one => new WatchEntry(
            one.Yard, one.Name, one.OwnerName, one.Address, StateOf(one.State), Dates(one.Weakest), Dates(one.FivePercent),
            one.Counted, one.Readings, one.LastReadOn, one.IsOdd, one.StaleSince is not null, one.VisitOn))];
    }

    // Not computed yet: nothing is known of it, and the entry says that it is being computed.
    private static WatchState StateOf(string name) => WireName.Words<WatchState>().FirstOrDefault(word => word.Key == name) is { Key: not null } known ? known.Value : WatchState.Unmeasured;

    private static OutlookDates? Dates(string? json) => json is null ? null : JsonSerializer.Deserialize(json, WorkshopJson.Default.OutlookDates);
}
