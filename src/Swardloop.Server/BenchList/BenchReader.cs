using Microsoft.EntityFrameworkCore;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.BenchList;

/// <summary>Puts today's work together.</summary>
internal sealed class BenchReader(IDbContextFactory<WorkshopDatabase> databases, TimeProvider clock)
{
    private const int MostCases = 200, MostVisits = 100, MostQuiet = 50;

    // A yard is about to go quiet when its reading has used up this share of the ohms it had to spare.
    private const double UsedUp = 0.75;

    /// <summary>Today's work as it stands now.</summary>
    public async Task<Bench> ReadAsync(CancellationToken cancellation)
    {
        DateOnly today = DateOnly.FromDateTime(clock.GetLocalNow().Date);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        long version = await database.Mark.Select(mark => mark.LastVersion).SingleAsync(cancellation);
        var open = await (
            from line in database.Cases.AsNoTracking()
            where line.IsOpen
            join yard in database.Yards.AsNoTracking() on line.Yard equals yard.Yard
            join owner in database.Owners.AsNoTracking() on yard.Owner equals owner.Owner into itsOwner
            from owner in itsOwner.DefaultIfEmpty()
            select new { Line = line, yard.Name, OwnerName = owner == null ? null : owner.Name }).ToListAsync(cancellation);
        List<BenchEntry> cases = [.. BenchOrder.Sort(open.Select(one => Entry(one.Line, one.Name, one.OwnerName)), today).Take(MostCases)];

        var planned = await (
            from visit in database.Visits.AsNoTracking()
            where visit.IsPlanned && visit.On <= today
            join yard in database.Yards.AsNoTracking() on visit.Yard equals yard.Yard
            orderby visit.On, visit.At, visit.Visit
            select new { Visit = visit, yard.Name, yard.Address }).Take(MostVisits).ToListAsync(cancellation);
        List<BenchVisit> visits = [.. planned.Select(one => new BenchVisit(
            one.Visit.Visit, one.Visit.Yard, one.Visit.Case, one.Name, one.Address, one.Visit.On, one.Visit.At, one.Visit.Who, one.Visit.Minutes))];

        List<YardLine> quiet = await database.Yards.AsNoTracking()
            .Where(yard => !yard.IsArchived && !database.Cases.Any(line => line.IsOpen && line.Yard == yard.Yard) && yard.LastOhms - yard.ExpectedOhms >= UsedUp * (yard.LimitOhms - yard.ExpectedOhms))
            .OrderBy(yard => yard.LimitOhms - yard.LastOhms).Take(MostQuiet).ToListAsync(cancellation);
        return new(version, cases, visits,
            [.. quiet.Select(yard => new QuietYard(
                yard.Yard, yard.Name, yard.LastOhms!.Value, yard.ExpectedOhms!.Value, yard.LimitOhms!.Value - yard.LastOhms.Value, yard.LastReadAt))],
            open.Count - cases.Count);
    }

    private static BenchEntry Entry(CaseLine line, string yardName, string? ownerName)
    {
        bool isFresh = line.StaleSince is null;
        return new(line.Case, line.Yard, yardName, ownerName, line.Complaint, line.State, line.OpenedAt, line.PromisedOn, line.LastNewsAt, line.NewFromOwner,
            isFresh ? line.Cause : null, isFresh ? line.Probability : null, isFresh ? line.NextStep : null, isFresh ? line.NextBy : null,
            isFresh ? line.ExpectedCost : null, line.HasConflict);
    }
}
