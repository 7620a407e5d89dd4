using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Bench.Serve;

/// <summary>A workshop with years behind it.</summary>
internal static class BusyWorkshop
{
    public const int Yards = 2000, Cases = 5000, OpenCases = 400;

    /// <summary>Fills it through the journal, as people would have written it. What is computed in the background (an hour of it at this size) is set to stand
    /// still at plausible values, so that it takes no part in the measurement.</summary>
    public static async Task FillAsync(IDatabaseEngine engine, string examples)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        engine.Configure(options);
        using WriteTurn turn = new();
        Journal journal = new(new Microsoft.EntityFrameworkCore.Infrastructure.PooledDbContextFactory<WorkshopDatabase>(options.Options), engine, new(), turn, TimeProvider.System);
        await journal.FillAsync(Changes(examples), CancellationToken.None);
        await using WorkshopDatabase database = new(options.Options);
        await database.Yards.ExecuteUpdateAsync(set => set.SetProperty(line => line.StaleSince, (long?)null)
            .SetProperty(line => line.ExpectedOhms, 5.2).SetProperty(line => line.LimitOhms, 30));
        await database.Cases.ExecuteUpdateAsync(set => set.SetProperty(line => line.StaleSince, (long?)null).SetProperty(line => line.Cause, "open")
            .SetProperty(line => line.Probability, 0.93).SetProperty(line => line.NextStep, "loop-resistance").SetProperty(line => line.NextBy, "technician")
            .SetProperty(line => line.ExpectedCost, 42.5));
    }

    private static IEnumerable<(Change Change, Author Author, DateTimeOffset TakenAt)> Changes(string examples)
    {
        Author desk = new("Robin Thimble", Role.Desk);
        DateTimeOffset now = DateTimeOffset.UtcNow;
        JsonElement file = JsonDocument.Parse(File.ReadAllText(Path.Combine(examples, "sorrel-corner.yard.json"))).RootElement;
        List<Guid> yards = [];
        for (int i = 0; i < Yards; i++)
        {
            Guid owner = Guid.CreateVersion7(), yard = Guid.CreateVersion7();
            yards.Add(yard);
            yield return (Change(RecordKind.Owner, owner, new { name = $"Bramble Otter {i}", phone = $"01632 960 {i:000}" }), desk, now);
            yield return (Change(RecordKind.Yard, yard, new { name = $"Thimble Hollow {i}", owner, address = $"{i} Mill Lane", file }), desk, now);
            if (i % 40 == 0)
            {
                yield return (Change(RecordKind.Observation, Guid.CreateVersion7(),
                    new { yard, reading = new { test = "loop-resistance", ohms = 27.5, leadOhms = 0.3 } }), desk, now);
            }
        }

        for (int i = 0; i < Cases; i++)
        {
            yield return (Change(RecordKind.Case, Guid.CreateVersion7(), new
            {
                yard = yards[i % Yards],
                complaint = $"stops in the middle of the lawn, number {i}",
                state = i < Cases - OpenCases ? "closed" : "open",
            }), desk, now);
        }
    }

    public static Change Change(RecordKind kind, Guid record, object set) => new(
        Guid.CreateVersion7(), kind, record,
        JsonSerializer.SerializeToElement(set).EnumerateObject().ToDictionary(field => field.Name, field => field.Value), new Dictionary<string, IReadOnlyList<Guid>>(),
        DateTimeOffset.UtcNow);
}
