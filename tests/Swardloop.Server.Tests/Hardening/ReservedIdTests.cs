using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>The ids of the workshop's only records of their kinds.</summary>
public sealed class ReservedIdTests
{
    private static readonly Guid Rates = new("00000000-0000-7000-8000-000000000001"), Workshop = new("00000000-0000-7000-8000-000000000002");

    [Fact]
    public async Task A_reserved_id_refuses_every_other_kind()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        IReadOnlyList<ChangeResult> results = await desk.SendAsync(Made.Yard(Rates), Made.Owner(Workshop), Made.Yard(Workshop), Made.Owner(Rates));
        Assert.All(results, result => Assert.Equal(ChangeStatus.Refused, result.Status));
        Assert.All(results, result => Assert.EndsWith(".record", Assert.Single(result.Problems).Place, StringComparison.Ordinal));
        await principal.KeepAsync(
            Made.Change(RecordKind.Rates, Rates, new() { ["labourPerHour"] = 60 }), Made.Change(RecordKind.Workshop, Workshop, new() { ["name"] = "Otter & Loop" }));
    }

    /// <summary>A database into which such records came before they were refused, and one whose text is damaged.</summary>
    [Fact]
    public async Task One_bad_record_breaks_no_case_file_and_no_export_and_is_named_in_the_report()
    {
        Swardloop.Server.Serving.WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        (Guid yard, Guid @case, Guid damaged) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        await principal.KeepAsync(Made.Yard(yard), Made.Case(@case, yard), Made.Case(damaged, yard));
        await using (AsyncServiceScope scope = served.Services.CreateAsyncScope())
        {
            WorkshopDatabase database = scope.ServiceProvider.GetRequiredService<WorkshopDatabase>();
            StoredRecord copy = await database.Records.AsNoTracking().SingleAsync(record => record.Id == yard, TestContext.Current.CancellationToken);
            database.Records.Add(new()
            {
                Id = Rates,
                Kind = RecordKind.Yard,
                Version = 1000,
                Yard = Rates,
                Json = copy.Json.Replace(yard.ToString(), Rates.ToString(), StringComparison.Ordinal),
            });
            await database.SaveChangesAsync(TestContext.Current.CancellationToken);
            await database.Records.Where(record => record.Id == damaged)
                .ExecuteUpdateAsync(set => set.SetProperty(record => record.Json, "{\"id\":"), TestContext.Current.CancellationToken);
        }

        Assert.Equal(HttpStatusCode.OK, (await principal.GetAsync($"/api/cases/{@case}/file")).StatusCode);
        string into = Path.Combine(place.Folder, "out");
        (int exitCode, string output, string error) = CommandRun.Run("export", "--everything", "--into", into, "--data", place.Folder);
        Assert.Equal((0, ""), (exitCode, error));
        Assert.Contains("1 record", output, StringComparison.Ordinal);
        Assert.Single(Directory.GetFiles(Path.Combine(into, "cases")));
        JsonNode report = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(into, "report.json"), TestContext.Current.CancellationToken))!;
        Assert.Equal(damaged.ToString(), (string?)Assert.Single(report["leftOut"]!.AsArray())!["record"]);
        JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(into, "records.json"), TestContext.Current.CancellationToken));
        Assert.Equal(HttpStatusCode.OK, (await principal.GetAsync("/api/export")).StatusCode);
    }
}
