using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Server.Tests.Changes;

namespace Swardloop.Server.Tests.Serving;

public sealed class DemoTests
{
    [Fact]
    public async Task The_demo_is_furnished_says_so_and_needs_no_password()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite(isDemo: true));
        using HttpClient client = served.Client();
        Me me = (await client.GetFromJsonAsync("/api/me", WorkshopJson.Default.Me))!;
        Assert.Equal((true, Role.Principal, false), (me.IsDemo, me.Role, me.NeedsFirstAccount));
        RecordPage page = await client.PageAsync();
        Assert.True(page.Complete);
        Assert.Equal(20, page.Records.Count(record => record.Kind == RecordKind.Yard));
        Bench bench = (await client.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!;
        Assert.Equal(12, bench.Cases.Count);
        Assert.Equal(RecordFields.CaseStates.Where(state => state != "closed"), bench.Cases.Select(entry => entry.State).Distinct().OrderBy(RecordFields.CaseStates.ToList().IndexOf));
        Assert.Contains(bench.Cases, entry => entry.NewFromOwner > 0);
        Assert.Contains(bench.Cases, entry => entry.HasConflict);
        Assert.Contains(bench.Visits, visit => visit.On == DateOnly.FromDateTime(DateTime.Now));
        DateTimeOffset[] readings = [.. page.Records.Where(record => record.Kind == RecordKind.Observation).Select(record => record["reading"].Shown!.MadeAt)];
        Assert.True(readings.Max() - readings.Min() > TimeSpan.FromDays(1000));
        foreach (BenchEntry entry in bench.Cases)
        {
            Assert.Equal(HttpStatusCode.OK, (await client.GetAsync($"/api/cases/{entry.Case}/file")).StatusCode);
        }
    }

    [Fact]
    public async Task Demo_and_real_workshops_do_not_open_each_other()
    {
        WorkshopPlace demo = TestPlaces.Sqlite(isDemo: true), real = TestPlaces.Sqlite();
        await (await Served.StartAsync(demo)).DisposeAsync();
        await (await Served.StartAsync(real)).DisposeAsync();
        foreach (WorkshopPlace wrong in (WorkshopPlace[])[demo with { IsDemo = false }, real with { IsDemo = true }])
        {
            WrongInputException refused = await Assert.ThrowsAsync<WrongInputException>(() => wrong.OpenAsync(wrong.Engine(), CancellationToken.None));
            Assert.DoesNotContain('\n', refused.Message);
        }

        await (await Served.StartAsync(real)).DisposeAsync();
    }
}
