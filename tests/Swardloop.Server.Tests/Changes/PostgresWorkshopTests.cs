using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Changes;

public sealed class PostgresWorkshopTests(PostgresServer postgres) : WorkshopTests, IClassFixture<PostgresServer>
{
    private protected override Task<WorkshopPlace> PlaceAsync() => postgres.NewPlaceAsync();

    /// <summary>One cookie counts on both, what one takes in the other tells its pages, and numbers stay without gaps with writers on both.</summary>
    [Fact]
    public async Task Two_servers_on_one_database_work_as_one()
    {
        WorkshopPlace place = await postgres.NewPlaceAsync();
        await using Served first = await Served.StartAsync(place);
        await using Served second = await Served.StartAsync(place);
        Assert.Equal(first.Mark.Workshop, second.Mark.Workshop);
        Assert.Equal(first.Mark.FirstAccountCode, second.Mark.FirstAccountCode);
        using HttpClient here = await first.AsAsync(Role.Desk);
        using HttpRequestMessage question = new(HttpMethod.Get, new Uri(second.Address, "/api/me"));
        // Cookies do not know ports: the same jar serves both.
        Me me = (await (await here.SendAsync(question)).Content.ReadFromJsonAsync(WorkshopJson.Default.Me))!;
        Assert.Equal(Role.Desk, me.Role);

        using HttpClient there = await second.AsAsync(Role.Technician);
        using Stream stream = await there.GetStreamAsync("/api/events");
        using StreamReader events = new(stream);
        Assert.Equal("event: hello", await events.ReadLineAsync(TestContext.Current.CancellationToken));
        Guid owner = Guid.CreateVersion7();
        // The other server may still be opening its ear: news is told again with the next change.
        Task<string?> heard = Task.Run(async () =>
        {
            while (await events.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
            {
                if (line.StartsWith("data: {", StringComparison.Ordinal))
                {
                    return line[6..];
                }
            }

            return null;
        });
        int sent = 0;
        while (!heard.IsCompleted)
        {
            await here.KeepAsync(Made.Owner(sent++ == 0 ? owner : Guid.CreateVersion7()));
            await Task.WhenAny(heard, Task.Delay(200, TestContext.Current.CancellationToken));
        }

        Assert.Equal(RecordKind.Owner, JsonSerializer.Deserialize((await heard)!, WorkshopJson.Default.ChangedRecord)!.Kind);

        // The bench list is kept in memory by each; both show at once what either took in.
        Guid yard = Guid.CreateVersion7();
        await here.KeepAsync(Made.Yard(yard));
        sent++;
        for (int cases = 1; cases <= 3; cases++)
        {
            await (cases % 2 == 0 ? here : there).KeepAsync(Made.Case(Guid.CreateVersion7(), yard));
            sent++;
            foreach (HttpClient client in (HttpClient[])[here, there])
            {
                Assert.Equal(cases, (await client.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!.Cases.Count);
            }
        }

        const int Each = 20;
        Task[] writing = [.. new[] { here, there }.Select(async client =>
        {
            for (int i = 0; i < Each; i++)
            {
                await client.KeepAsync(Made.Owner(Guid.CreateVersion7()));
            }
        })];
        List<long> seen = [];
        while (seen.Count < sent + (2 * Each))
        {
            seen.AddRange((await there.PageAsync(seen.LastOrDefault())).Records.Select(record => record.Version));
            Assert.DoesNotContain(writing, task => task.IsFaulted);
        }

        await Task.WhenAll(writing);
        Assert.Equal(Enumerable.Range(1, sent + (2 * Each)).Select(number => (long)number), seen);
    }
}
