using System.Collections.Concurrent;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Processes;

/// <summary>The database itself is killed and started again under two servers of a workshop while people write by both.</summary>
public sealed class PostgresKillTests(PostgresServer postgres) : IClassFixture<PostgresServer>
{
    private bool _isFirst = true;

    /// <summary>3 times in every run, 60 in the long one: all its processes killed; stopped without a checkpoint; one of its processes killed, upon which it ends the others itself.</summary>
    [Fact]
    public async Task Nothing_kept_is_lost_servers_recover_by_themselves_and_streams_go_on_when_the_database_is_killed()
    {
        int rounds = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 60 : 3;
        Random moments = new(20261129);
        WorkshopPlace place = await postgres.NewPlaceAsync();
        await using Served first = await Served.StartAsync(place), second = await Served.StartAsync(place);
        using HttpClient here = await first.AsAsync(Role.Desk), there = await second.AsAsync(Role.Technician);
        using Stream hereStream = await here.GetStreamAsync("/api/events"), thereStream = await there.GetStreamAsync("/api/events");
        Ear[] ears = [new(hereStream), new(thereStream)];
        ConcurrentDictionary<Guid, byte> kept = new();
        int refused = 0;
        for (int round = 0; round < rounds; round++)
        {
            int after = kept.Count + moments.Next(5, 30);
            using CancellationTokenSource enough = new();
            Task[] writing = [.. new[] { here, there, here, there }.Select(client => WriteAsync(client, () => enough.IsCancellationRequested))];
            await UntilAsync(() => kept.Count >= after || writing.Any(task => task.IsFaulted));
            switch (round % 3)
            {
                case 0:
                    await postgres.KillAsync();
                    await StaysAwayAsync(writing);
                    await postgres.StartAsync();
                    break;
                case 1:
                    await postgres.StopAtOnceAsync();
                    await StaysAwayAsync(writing);
                    await postgres.StartAsync();
                    break;
                default:
                    postgres.KillOneConnection();
                    break;
            }

            int before = kept.Count;
            await UntilAsync(() => kept.Count >= before + 8 || writing.Any(task => task.IsFaulted));
            await enough.CancelAsync();
            await Task.WhenAll(writing);

            // Each hears what the other takes in now, by the stream that was open all the time, and both hold the same.
            foreach ((HttpClient by, Ear ear) in new[] { (here, ears[1]), (there, ears[0]) })
            {
                Change change = Made.Owner(Guid.CreateVersion7());
                await by.KeepAsync(change);
                kept[change.Record] = 0;
                await UntilAsync(() => ear.Heard.ContainsKey(change.Record) || ear.IsOver);
                Assert.False(ear.IsOver, "a stream ended");
            }

            foreach (HttpClient client in (HttpClient[])[here, there])
            {
                RecordPage page = await AllAsync(client);
                Assert.Equal(Enumerable.Range(1, page.Records.Count).Select(number => (long)number), page.Records.Select(record => record.Version));
                Assert.Empty(kept.Keys.Except(page.Records.Select(record => record.Id)));
            }
        }

        Assert.True(refused > 0, "nobody noticed that the database was away");
        TestContext.Current.TestOutputHelper?.WriteLine($"{rounds} kills of the database, {kept.Count} changes answered as kept, none lost; {refused} answers said that the database was away");

        async Task WriteAsync(HttpClient client, Func<bool> isEnough)
        {
            while (!isEnough())
            {
                Change change = Made.Owner(Guid.CreateVersion7());
                // As a device does: the same change again until it is answered for.
                while (true)
                {
                    using HttpResponseMessage answer = await client.PostAsync("/api/changes", Served.Json(new ChangeBatch([change]), WorkshopJson.Default.ChangeBatch));
                    if (answer.IsSuccessStatusCode)
                    {
                        Assert.Equal(ChangeStatus.Kept, Assert.Single((await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ChangeResults))!.Results).Status);
                        break;
                    }

                    Assert.True(answer.StatusCode == HttpStatusCode.InsufficientStorage, $"{(int)answer.StatusCode} {await answer.Content.ReadAsStringAsync()}");
                    Interlocked.Increment(ref refused);
                    await Task.Delay(50);
                }

                kept[change.Record] = 0;
            }
        }

        async Task StaysAwayAsync(Task[] writing)
        {
            int before = refused;
            await UntilAsync(() => refused >= before + 4 || writing.Any(task => task.IsFaulted));
            // Long enough that the streams have to ask whether their bearers may go on.
            await Task.Delay(_isFirst ? 6_000 : moments.Next(0, 1_000));
            _isFirst = false;
        }
    }

    private static async Task<RecordPage> AllAsync(HttpClient client)
    {
        RecordPage page = await client.PageAsync();
        while (!page.Complete)
        {
            RecordPage next = await client.PageAsync(page.Next);
            page = next with { Records = [.. page.Records, .. next.Records] };
        }

        return page;
    }

    private static async Task UntilAsync(Func<bool> holds)
    {
        while (!holds())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Listens to a stream of news.</summary>
    private sealed class Ear
    {
        public Ear(Stream stream) => _ = ListenAsync(stream);

        public ConcurrentDictionary<Guid, byte> Heard { get; } = new();

        public bool IsOver { get; private set; }

        private async Task ListenAsync(Stream stream)
        {
            try
            {
                using StreamReader events = new(stream);
                while (await events.ReadLineAsync() is { } line)
                {
                    if (line.StartsWith("data: {", StringComparison.Ordinal))
                    {
                        Heard[JsonSerializer.Deserialize(line[6..], WorkshopJson.Default.ChangedRecord)!.Record] = 0;
                    }
                }
            }
            catch (Exception fault) when (fault is IOException or HttpRequestException or ObjectDisposedException)
            {
                // Cut off.
            }

            IsOver = true;
        }
    }
}
