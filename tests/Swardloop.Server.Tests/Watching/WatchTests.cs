using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Watching;

/// <summary>The watch list over HTTP: what is listed where, that each yard is computed once for each state of its readings, and the command line's forecast as the second route.</summary>
public sealed class WatchTests
{
    private static readonly Func<int, double, double> Rising = (year, perYear) => 7 + (perYear * year);

    [Fact]
    public async Task Yards_stand_by_their_dates_and_those_of_whom_too_little_is_known_say_so()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid soon, Guid later, Guid steady, Guid few, Guid none, Guid mended, Guid away) = (Id(), Id(), Id(), Id(), Id(), Id(), Id());
        foreach (Guid yard in (Guid[])[steady, none, later, few, soon, mended, away])
        {
            await desk.KeepAsync(Made.Yard(yard));
        }

        await ReadAsync(desk, soon, 9, year => Rising(year, 16));
        await ReadAsync(desk, later, 9, year => Rising(year, 8));
        await ReadAsync(desk, steady, 9, _ => 4.6);
        await ReadAsync(desk, few, 2, year => Rising(year, 2));
        await ReadAsync(desk, mended, 9, year => Rising(year, 16));
        await desk.KeepAsync(Made.Observation(Id(), mended, null, """{"repair":"remake-terminals","at":"2026-05-01T10:00:00+02:00"}"""));
        await desk.KeepAsync(Made.Change(RecordKind.Yard, away, new() { ["archived"] = true }));

        WatchPage page = await ComputedAsync(desk);
        Assert.Equal([soon, later, steady, few, mended, none], page.Entries.Select(entry => entry.Yard));
        Assert.Equal([WatchState.Dated, WatchState.Dated, WatchState.Dated, WatchState.Few, WatchState.MendedSince, WatchState.Unmeasured], page.Entries.Select(entry => entry.State));
        Assert.Equal((6, 0, (string?)null), (page.Total, page.Computing, page.Next));
        Assert.All(page.Entries.Take(2), entry => Assert.True(entry.Weakest!.Low <= entry.Weakest.Median && entry.FivePercent!.Median >= entry.Weakest.Median));
        Assert.Null(page.Entries[2].Weakest!.Median);
        Assert.All(page.Entries.Skip(4), entry => Assert.Null(entry.Weakest));
        Assert.Equal((9, 9, false), (page.Entries[0].Counted, page.Entries[0].Readings, page.Entries[0].IsOdd));

        // Page by page the same, by either date.
        foreach (string by in (string[])["weakest", "five-percent"])
        {
            List<Guid> read = [];
            string? next = null;
            do
            {
                WatchPage two = await ListAsync(desk, $"?by={by}&limit=2{(next is null ? "" : $"&after={next}")}");
                Assert.InRange(two.Entries.Count, 0, 2);
                read.AddRange(two.Entries.Select(entry => entry.Yard));
                next = two.Next;
            }
            while (next is not null);
            Assert.Equal([soon, later, steady, few, mended, none], read);
        }
    }

    [Fact]
    public async Task A_bad_reading_is_flagged_and_a_signed_acceptance_begins_anew()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid @case, Guid signed) = (Id(), Id(), Id());
        await desk.KeepAsync(Made.Yard(yard), Made.Case(@case, yard));
        await ReadAsync(desk, yard, 9, year => year == 5 ? 61 : Rising(year, 2));
        WatchEntry odd = Assert.Single((await ComputedAsync(desk)).Entries);
        Assert.Equal((true, 8, 9), (odd.IsOdd, odd.Counted, odd.Readings));

        YardOutlook outlook = (await desk.GetFromJsonAsync($"/api/yards/{yard}/outlook", WorkshopJson.Default.YardOutlook))!;
        Assert.False(outlook.Forecast!.Readings[5].Used);
        Assert.Contains(outlook.Forecast.Notes, note => note is { Note: Core.Forecasting.ForecastNote.OddReading, Reading: 5 });

        double sound = SoundOhms();
        await desk.KeepAsync(
            Made.Observation(signed, yard, @case, $$"""{"test":"loop-resistance","ohms":{{sound.ToString(CultureInfo.InvariantCulture)}},"leadOhms":0.2,"at":"2026-06-01T10:00:00+02:00"}"""));
        await desk.KeepAsync(Made.Change(RecordKind.Case, @case, new() { ["acceptedBy"] = "Odo Quillfeather", ["acceptedAt"] = "2026-06-01T10:05:00+02:00", ["acceptedReading"] = signed.ToString() }));
        WatchEntry accepted = Assert.Single((await ComputedAsync(desk)).Entries);
        Assert.Equal((WatchState.Few, 1, 10), (accepted.State, accepted.Counted, accepted.Readings));

        // Taken back, all count again.
        await desk.KeepAsync(Made.Change(RecordKind.Case, @case, new() { ["acceptedBy"] = null, ["acceptedAt"] = null, ["acceptedReading"] = null }, [.. await SeenAsync(desk, @case)]));
        Assert.Equal(WatchState.Dated, Assert.Single((await ComputedAsync(desk)).Entries).State);
    }

    [Fact]
    public async Task The_forecast_is_the_command_lines_and_is_computed_once_for_each_state_of_the_readings()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid yard = Id(), @case = Id();
        await desk.KeepAsync(Made.Yard(yard));
        await ReadAsync(desk, yard, 6, year => Rising(year, 3));
        WatchEntry entry = Assert.Single((await ComputedAsync(desk)).Entries);

        string folder = Directory.CreateTempSubdirectory("swardloop-test-").FullName, file = Path.Combine(folder, "y.yard.json"), readings = Path.Combine(folder, "r.csv");
        await File.WriteAllBytesAsync(file, await desk.GetByteArrayAsync($"/api/yards/{yard}/file"));
        await File.WriteAllTextAsync(readings, "at,ohms,leadOhms\n" + string.Concat(Enumerable.Range(0, 6).Select(year => $"{2018 + year}-05-14,{Rising(year, 3).ToString(CultureInfo.InvariantCulture)},0.2\n")));
        using MemoryStream output = new();
        Assert.Equal(0, Cli.Shell.Run(["forecast", file, readings, "--json"], new Cli.Terminal(() => Stream.Null, () => output, () => Stream.Null)));
        JsonNode told = JsonNode.Parse(output.ToArray())!;
        Directory.Delete(folder, recursive: true);
        Assert.Equal((string?)told["weakestLostOn"]!["median"], entry.Weakest!.Median?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        Assert.Equal((string?)told["fivePercentLostOn"]!["low"], entry.FivePercent!.Low?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));

        // What is marked here would be gone if it were computed again: a case and an answer that is no reading change nothing.
        IDbContextFactory<WorkshopDatabase> databases = served.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>();
        await MarkAsync("marked");
        await desk.KeepAsync(Made.Case(@case, yard), Made.Observation(Id(), yard, @case, """{"test":"station-lamp","value":"normal"}"""));
        await ComputedAsync(desk);
        await using (WorkshopDatabase database = await databases.CreateDbContextAsync())
        {
            Assert.Equal("marked", (await database.Watch.SingleAsync()).Forecast);
        }

        await desk.KeepAsync(Made.Observation(Id(), yard, @case, """{"test":"loop-resistance","ohms":26,"leadOhms":0.2,"at":"2024-05-14T10:00:00+02:00"}"""));
        await ComputedAsync(desk);
        Assert.Equal(7, (await desk.GetFromJsonAsync($"/api/yards/{yard}/outlook", WorkshopJson.Default.YardOutlook))!.Forecast!.Readings.Count);

        async Task MarkAsync(string mark)
        {
            await using WorkshopDatabase database = await databases.CreateDbContextAsync();
            await database.Watch.ExecuteUpdateAsync(set => set.SetProperty(line => line.Forecast, mark));
        }
    }

    [Theory]
    [InlineData("?by=luck", "by")]
    [InlineData("?after=%27;", "after")]
    [InlineData("?limit=0", "limit")]
    public async Task What_is_not_known_is_refused(string query, string place)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Reader);
        using HttpResponseMessage answer = await desk.GetAsync($"/api/watch{query}");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(place, (string?)JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["problems"]![0]!["place"]);
        Assert.Equal(HttpStatusCode.NotFound, (await desk.GetAsync($"/api/yards/{Id()}/outlook")).StatusCode);
    }

    private static Guid Id() => Guid.CreateVersion7();

    // What a sound loop of the example measures at the ground's temperature.
    private static double SoundOhms()
    {
        Model.Checks.ProblemList problems = new("");
        using JsonDocument file = JsonDocument.Parse(Made.YardFile.ToJsonString());
        return Math.Round(Core.Budget.LoopBudget.For(Model.Yards.YardFile.Read(file.RootElement, "", problems)!.Yard).ExpectedOhms.Nominal + 0.2, 2);
    }

    private static async Task ReadAsync(HttpClient desk, Guid yard, int count, Func<int, double> ohms)
    {
        for (int year = 0; year < count; year++)
        {
            await desk.KeepAsync(Made.Observation(
                Id(), yard, null,
                $$"""{"test":"loop-resistance","ohms":{{ohms(year).ToString(CultureInfo.InvariantCulture)}},"leadOhms":0.2,"at":"{{2018 + year}}-05-14T10:00:00+02:00"}"""));
        }
    }

    private static async Task<(string, Guid[])[]> SeenAsync(HttpClient desk, Guid record)
    {
        JsonNode state = JsonNode.Parse(await desk.GetStringAsync($"/api/records/{record}"))!;
        return [.. ((string[])["acceptedBy", "acceptedAt", "acceptedReading"]).Select(field =>
            (field, state["fields"]![field]!["values"]!.AsArray().Select(value => Guid.Parse((string)value!["change"]!)).ToArray()))];
    }

    private static async Task<WatchPage> ListAsync(HttpClient desk, string query = "") => (await desk.GetFromJsonAsync($"/api/watch{query}", WorkshopJson.Default.WatchPage))!;

    // Computed in the background: how long that takes on a loaded machine is nobody's promise.
    private static async Task<WatchPage> ComputedAsync(HttpClient desk)
    {
        using CancellationTokenSource patience = new(TimeSpan.FromMinutes(3));
        while (true)
        {
            if (await ListAsync(desk) is { Computing: 0 } page)
            {
                return page;
            }

            await Task.Delay(100, patience.Token);
        }
    }
}
