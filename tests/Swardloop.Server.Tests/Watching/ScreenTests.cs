using System.Text.Json.Nodes;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Processes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Server.Watching;
using Swardloop.Storage;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Watching;

/// <summary>Screening: parts, killed at random moments and gone on with, two beside each other. Whatever way it went, the same results stand in the database, each written once.</summary>
public sealed class ScreenTests
{
    private const int Yards = 14, Cases = 2;

    private readonly Random _moments = new(20260514);

    private static int Kills => Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 60 : 3;

    [Fact]
    public void Every_yard_is_in_one_part_and_parts_are_alike()
    {
        Guid[] yards = [.. Enumerable.Range(0, 20_000).Select(i => Guid.CreateVersion7(DateTimeOffset.UnixEpoch.AddMilliseconds(i)))];
        int[] counts = new int[64];
        foreach (Guid yard in yards)
        {
            counts[Screening.PartOf(yard, 64)]++;
        }

        // 312.5 each, with a deviation of about 17.5: six of them.
        Assert.All(counts, count => Assert.InRange(count, 207, 418));
        Assert.Equal(Screening.PartOf(yards[0], 64), Screening.PartOf(yards[0], 64));
    }

    [Fact]
    public async Task Parts_killed_runs_and_two_beside_each_other_all_come_to_the_same_results()
    {
        string begun = await WorkshopAsync();
        string whole = CopyOf(begun);
        JsonNode report = Screen(whole);
        Assert.Equal((Yards, Yards, Yards, Yards, Cases, 0, 0), Counts(report));
        string expected = await ResultsAsync(whole);
        Assert.Equal((Yards, 0, 0, 0, 0, 0, 0), Counts(Screen(whole)));

        // Part by part, in any order.
        string parted = CopyOf(begun);
        JsonNode[] parts = [.. ((string[])["3/3", "1/3", "2/3"]).Select(part => Screen(parted, part))];
        Assert.Equal(Yards, parts.Sum(one => (int)one["yards"]!));
        Assert.Equal((Yards, Cases), (parts.Sum(one => (int)one["forecasts"]!), parts.Sum(one => (int)one["advice"]!)));
        Assert.Equal(expected, await ResultsAsync(parted));

        // Two of the same part beside each other: each result is written by one of them.
        string twice = CopyOf(begun);
        JsonNode[] both = await Task.WhenAll(Task.Run(() => Screen(twice)), Task.Run(() => Screen(twice)));
        Assert.Equal((Yards, Yards, Cases), (both.Sum(one => (int)one["reach"]!), both.Sum(one => (int)one["forecasts"]!), both.Sum(one => (int)one["advice"]!)));
        Assert.Equal(expected, await ResultsAsync(twice));

        // Killed when so many more are done, and gone on with; on a busy machine until one kill at least was in time.
        int killed = 0;
        for (int kill = 0; kill < Kills || (killed == 0 && kill < 20); kill++)
        {
            string cut = CopyOf(begun);
            int atLeast = _moments.Next(1, Yards);
            killed += await ServerProcess.StartAndKillAsync(["screen", "--data", cut], async ended =>
            {
                while (await DoneAsync(cut) < atLeast)
                {
                    await Task.Delay(_moments.Next(1, 20), ended);
                }
            }) ? 1 : 0;
            Assert.Equal("ok", KillTests.Check(cut));
            int done = await DoneAsync(cut);
            Assert.Equal(Yards - done, (int)Screen(cut)["forecasts"]!);
            Assert.Equal(expected, await ResultsAsync(cut));
        }

        Assert.True(killed > 0, "every run ended before it was killed");
    }

    [Fact]
    public async Task A_servers_own_upkeep_comes_to_the_same_as_a_screening()
    {
        string begun = await WorkshopAsync(), screened = CopyOf(begun), served = CopyOf(begun);
        Screen(screened);
        await using (Served server = await Served.StartAsync(new(served, null, false)))
        {
            using HttpClient desk = await server.AsAsync(Role.Desk);
            using CancellationTokenSource patience = new(TimeSpan.FromMinutes(3));
            while (await StaleAsync(served) > 0)
            {
                await Task.Delay(100, patience.Token);
            }
        }

        Assert.Equal(await ResultsAsync(screened), await ResultsAsync(served));
    }

    [Theory]
    [InlineData("0/3")]
    [InlineData("4/3")]
    [InlineData("three")]
    [InlineData("1/0")]
    [InlineData("-1/3")]
    public void What_is_no_part_is_refused(string part)
    {
        (int exitCode, string output, string error) = CommandRun.Run("screen", $"--part={part}", "--data", "nowhere");
        Assert.Equal((2, ""), (exitCode, output));
        Assert.Contains("I/N such as 3/64", error, StringComparison.Ordinal);
        Assert.Single(error.Trim().Split('\n'));
    }

    private static (int, int, int, int, int, int, int) Counts(JsonNode report) => (
        (int)report["yards"]!, (int)report["changed"]!, (int)report["reach"]!, (int)report["forecasts"]!, (int)report["advice"]!, (int)report["overtaken"]!, (int)report["failed"]!);

    private static JsonNode Screen(string data, string? part = null)
    {
        (int exitCode, string output, string error) = CommandRun.Run(part is null ? ["screen", "--json", "--data", data] : ["screen", "--json", "--data", data, "--part", part]);
        Assert.True(exitCode == 0, error + output);
        return JsonNode.Parse(output)!;
    }

    // All that a screening writes, and nothing else.
    private static async Task<string> ResultsAsync(string data)
    {
        await using WorkshopDatabase database = Open(data);
        return JsonSerializer.Serialize(new
        {
            Watch = await database.Watch.AsNoTracking().OrderBy(line => line.Yard).ToListAsync(),
            Yards = await database.Yards.AsNoTracking().OrderBy(line => line.Yard).ToListAsync(),
            Cases = await database.Cases.AsNoTracking().OrderBy(line => line.Case).ToListAsync(),
        });
    }

    private static async Task<int> DoneAsync(string data)
    {
        await using WorkshopDatabase database = Open(data);
        return await database.Watch.CountAsync(line => line.StaleSince == null);
    }

    private static async Task<int> StaleAsync(string data)
    {
        await using WorkshopDatabase database = Open(data);
        return await database.Watch.CountAsync(line => line.StaleSince != null) + await database.Yards.CountAsync(line => line.StaleSince != null)
            + await database.Cases.CountAsync(line => line.StaleSince != null);
    }

    private static string CopyOf(string folder)
    {
        SqliteConnection.ClearAllPools();
        string copy = TestPlaces.Sqlite().Folder;
        foreach (string file in Directory.EnumerateFiles(folder, SqliteEngine.FileName + "*"))
        {
            File.Copy(file, Path.Combine(copy, Path.GetFileName(file)));
        }

        return copy;
    }

    private static WorkshopDatabase Open(string folder)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        new SqliteEngine(Path.Combine(folder, SqliteEngine.FileName)).Configure(options);
        return new(options.Options);
    }

    /// <summary>A folder with yards that were read a few times each, two open cases, and nothing computed.</summary>
    private static async Task<string> WorkshopAsync()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        IDatabaseEngine engine = place.Engine();
        await place.OpenAsync(engine, CancellationToken.None);
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        engine.Configure(options);
        using WriteTurn turn = new();
        Journal journal = new(new PooledDbContextFactory<WorkshopDatabase>(options.Options), engine, new(), turn, TimeProvider.System);
        List<Change> changes = [];
        for (int i = 0; i < Yards; i++)
        {
            Guid yard = Guid.CreateVersion7();
            changes.Add(Made.Yard(yard));
            for (int year = 0; year < i % 5; year++)
            {
                changes.Add(Made.Observation(Guid.CreateVersion7(), yard, null, $$"""{"test":"loop-resistance","ohms":{{7 + (year * (i + 1))}},"leadOhms":0.2,"at":"{{2020 + year}}-05-14T10:00:00+02:00"}"""));
            }

            if (i < Cases)
            {
                changes.Add(Made.Case(Guid.CreateVersion7(), yard));
            }
        }

        await journal.FillAsync(changes.Select(change => (change, new Author("Robin", Role.Desk), new DateTimeOffset(2026, 5, 14, 9, 30, 0, TimeSpan.Zero))), CancellationToken.None);
        SqliteConnection.ClearAllPools();
        return place.Folder;
    }
}
