using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.BenchList;

/// <summary>Puts today's work together; once for each state of the workshop, however many ask.</summary>
internal sealed class BenchReader(IDbContextFactory<WorkshopDatabase> databases, TimeProvider clock) : IDisposable
{
    private const int MostCases = 200, MostVisits = 100, MostQuiet = 50;

    // A yard is about to go quiet when its reading has used up this share of the ohms it had to spare.
    private const double UsedUp = 0.75;

    // Not shared by servers: it belongs to the one kind of database it was made for.
    private readonly Func<WorkshopDatabase, CancellationToken, Task<Tide>> _now = EF.CompileAsyncQuery((WorkshopDatabase database, CancellationToken cancellation) =>
        database.Mark.Select(mark => new Tide(
            mark.LastVersion, database.Yards.Count(line => line.StaleSince != null), database.Cases.Count(line => line.StaleSince != null))).Single());

    private readonly SemaphoreSlim _turn = new(1, 1);
    private readonly Lock _gate = new();
    private Task<State> _looking = Task.FromResult<State>(default);
    private Task<State>? _lookingNext;
    private Written? _written;

    /// <summary>Today's work as it stands now, as the API's JSON in UTF-8, and a tag that two lists share only when they are the same.</summary>
    public async Task<(ReadOnlyMemory<byte> Utf8, string Tag)> ReadAsync(CancellationToken cancellation)
    {
        State state = await StateAsync();
        if (_written is { } known && known.State == state)
        {
            return (known.Utf8, known.Tag);
        }

        await _turn.WaitAsync(cancellation);
        try
        {
            // Others may have written it while this one waited, and more may have changed. Looked at before the lists are read: what changes
            // between the two is in the lists, and makes the next reader read again.
            state = await StateAsync();
            if (_written is not { } fresh || fresh.State != state)
            {
                await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
                Bench bench = await ListAsync(database, state.Today, state.Version, cancellation);
                byte[] utf8 = JsonSerializer.SerializeToUtf8Bytes(bench, WorkshopJson.Default.Bench);
                _written = fresh = new(state, utf8, Convert.ToHexStringLower(SHA256.HashData(utf8).AsSpan(0, 16)));
            }

            return (fresh.Utf8, fresh.Tag);
        }
        finally
        {
            _turn.Release();
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _turn.Dispose();

    // One look at the database serves all who asked before it began; who asks while it runs may know of a newer change, and waits for the next.
    private Task<State> StateAsync()
    {
        lock (_gate)
        {
            return _lookingNext ??= LookAfterAsync(_looking);
        }
    }

    private async Task<State> LookAfterAsync(Task before)
    {
        await before.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ForceYielding);
        lock (_gate)
        {
            (_looking, _lookingNext) = (_lookingNext!, null);
        }

        await using WorkshopDatabase database = await databases.CreateDbContextAsync();
        Tide tide = await _now(database, CancellationToken.None);
        return new(DateOnly.FromDateTime(clock.GetLocalNow().Date), tide.Version, tide.StaleYards, tide.StaleCases);
    }

    private static async Task<Bench> ListAsync(WorkshopDatabase database, DateOnly today, long version, CancellationToken cancellation)
    {
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

    private sealed record Tide(long Version, int StaleYards, int StaleCases);

    /// <summary>State of the lists, read from the database and so the same for every server on it: changes raise the number, and between two
    /// changes the computing in the background only ever takes lines out of those that are out of date. So no state comes twice.</summary>
    private readonly record struct State(DateOnly Today, long Version, int StaleYards, int StaleCases);

    private sealed record Written(State State, ReadOnlyMemory<byte> Utf8, string Tag);
}
