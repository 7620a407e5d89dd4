using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.Extensions.Logging;
using Swardloop.Core.Diagnosis;
using Swardloop.Server.Advising;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Advising;

public sealed class UpkeepTests : ILogger<Upkeep>
{
    private const string Hopeless = "stops in the middle, and so does the advisor";

    private readonly List<string> _told = [];
    private readonly Clock _clock = new();
    private bool _isHopeless = true;

    [Fact]
    public async Task A_case_whose_advice_fails_is_told_once_and_holds_up_no_other()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        IDatabaseEngine engine = place.Engine();
        await place.OpenAsync(engine, CancellationToken.None);
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        engine.Configure(options);
        PooledDbContextFactory<WorkshopDatabase> databases = new(options.Options);
        using WriteTurn turn = new();
        Journal journal = new(databases, engine, new(), turn, _clock);
        (Guid yard, Guid good, Guid other, Guid bad) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        async Task KeepAsync(params Change[] changes) => await journal.FillAsync(
            changes.Select(change => (change, new Author("Robin", Role.Desk), _clock.GetUtcNow())), CancellationToken.None);
        // The newest change has its turn first: the bad case stands before the others.
        await KeepAsync(
            Made.Yard(yard), Made.Case(good, yard), Made.Case(other, yard),
            Made.Change(RecordKind.Case, bad, new() { ["yard"] = yard.ToString(), ["complaint"] = Hopeless, ["state"] = "open" }));
        using ComputingQueue queue = new();
        using Upkeep upkeep = new(databases, new(), turn, new(databases), queue, _clock, this, Advise);

        Assert.Equal([bad], await StaleAfterAllAsync());
        Assert.Contains(bad.ToString(), Assert.Single(_told), StringComparison.Ordinal);

        // Later it is tried again and fails again, and that is no news.
        _clock.Now += TimeSpan.FromMinutes(2);
        Assert.Equal([bad], await StaleAfterAllAsync());
        Assert.Single(_told);

        await KeepAsync(Made.Observation(Guid.CreateVersion7(), yard, bad, """{"test":"station-lamp","value":"normal"}"""));
        _clock.Now += TimeSpan.FromMinutes(2);
        Assert.Equal([bad], await StaleAfterAllAsync());
        Assert.Equal(2, _told.Count);

        _isHopeless = false;
        _clock.Now += TimeSpan.FromMinutes(2);
        Assert.Empty(await StaleAfterAllAsync());

        async Task<List<Guid>> StaleAfterAllAsync()
        {
            while (await upkeep.OneAsync(TestContext.Current.CancellationToken))
            {
            }

            await using WorkshopDatabase database = await databases.CreateDbContextAsync(TestContext.Current.CancellationToken);
            Assert.Equal(0, await database.Yards.CountAsync(line => line.StaleSince != null, TestContext.Current.CancellationToken));
            return await database.Cases.Where(line => line.StaleSince != null).Select(line => line.Case).ToListAsync(TestContext.Current.CancellationToken);
        }
    }

    void ILogger.Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        _told.Add(formatter(state, exception));

    bool ILogger.IsEnabled(LogLevel logLevel) => true;

    IDisposable? ILogger.BeginScope<TState>(TState state) => null;

    private Advice Advise(ServiceCase serviceCase, CausePriors priors, CancellationToken cancellation) =>
        _isHopeless && serviceCase.Complaint == Hopeless
            ? throw new InvalidOperationException("No way out.")
            : new() { Causes = [new(new Cause(CauseKind.Open), 1)], Density = [], Evidence = [], Next = [] };

    private sealed class Clock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 5, 14, 9, 30, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
