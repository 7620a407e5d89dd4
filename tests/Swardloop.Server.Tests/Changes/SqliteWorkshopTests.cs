using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Changes;

public sealed class SqliteWorkshopTests : WorkshopTests
{
    private protected override Task<WorkshopPlace> PlaceAsync() => Task.FromResult(TestPlaces.Sqlite());

    [Fact]
    public async Task A_file_that_is_gone_is_an_error_and_never_an_empty_workshop()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient desk = await served.AsAsync(Role.Desk);
        await desk.KeepAsync(Made.Owner(Guid.CreateVersion7()));
        string file = Path.Combine(place.Folder, SqliteEngine.FileName), aside = file + ".aside";
        File.Move(file, aside);

        HttpResponseMessage asked = await desk.GetAsync("/api/bench");
        Assert.Equal(HttpStatusCode.InsufficientStorage, asked.StatusCode);
        Assert.Contains("gone", (await asked.Content.ReadFromJsonAsync(WorkshopJson.Default.ProblemReply))!.Detail, StringComparison.Ordinal);
        HttpResponseMessage told = await desk.PostAsync("/api/changes", Served.Json(new ChangeBatch([Made.Owner(Guid.CreateVersion7())]), WorkshopJson.Default.ChangeBatch));
        Assert.Equal(HttpStatusCode.InsufficientStorage, told.StatusCode);
        Assert.False(File.Exists(file));

        File.Move(aside, file);
        Assert.Single((await desk.PageAsync()).Records);
    }
}
