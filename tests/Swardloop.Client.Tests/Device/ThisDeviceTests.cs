using System.Text.Json;
using Swardloop.Client.Device;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Device;

public class ThisDeviceTests
{
    [Fact]
    public async Task Change_is_in_the_store_when_it_is_shown_and_leaves_only_when_confirmed()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;

        Guid owner = await AddOwner(scene, "Otter");

        Assert.Single(scene.Page.Part("waiting"));
        Assert.Equal("Otter", scene.Device.Replica[owner]!.Text("name"));
        Assert.Empty(scene.Workshop.Records);

        scene.Workshop.IsOutOfReach = false;
        await scene.OnPageAsync(() => { scene.Device.Wake(); return Task.CompletedTask; });
        await scene.UntilAsync(() => scene.Device.Replica.Waiting.Count == 0);
        Assert.Empty(scene.Page.Part("waiting"));
        Assert.Equal("Otter", scene.Workshop.Records[owner].Text("name"));
    }

    [Fact]
    public async Task What_waits_survives_a_page_that_was_killed_and_a_start_without_reception()
    {
        FakeWorkshop workshop = new();
        MemoryPage page = new();
        Guid owner;
        using (Scene before = new(workshop, page))
        {
            await before.StartAsync();
            workshop.IsOutOfReach = true;
            owner = await AddOwner(before, "Otter");
        }

        using Scene after = new(workshop, page);
        await after.StartAsync();

        Assert.True(after.Device.IsReady);
        Assert.False(after.Device.IsConnected);
        Assert.Equal("Otter", after.Device.Replica[owner]!.Text("name"));
        workshop.IsOutOfReach = false;
        await after.OnPageAsync(() => { after.Device.Wake(); return Task.CompletedTask; });
        await after.UntilAsync(() => after.Device.Replica.Waiting.Count == 0);
        Assert.Equal("Otter", workshop.Records[owner].Text("name"));
    }

    [Fact]
    public async Task Refused_change_stays_in_the_store_with_the_reason_and_holds_up_nothing()
    {
        using Scene scene = new();
        await scene.StartAsync();

        Guid refused = await AddOwner(scene, "refuse me"), kept = await AddOwner(scene, "Otter");
        await scene.UntilAsync(() => scene.Workshop.Records.ContainsKey(kept));
        await scene.UntilAsync(() => scene.Device.Replica.Waiting.Any(waiting => waiting.Refusal is not null));

        Assert.Null(scene.Device.Replica[refused]);
        Assert.Contains("is refused", Assert.Single(scene.Page.Part("waiting").Values), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Full_store_is_said_and_nothing_is_shown_as_saved()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Page.Full = "Quota exceeded";

        await Assert.ThrowsAnyAsync<Exception>(() => AddOwner(scene, "Otter"));

        Assert.Equal("Quota exceeded", scene.Device.StoreFault);
        Assert.DoesNotContain(scene.Device.Replica.OfKind(RecordKind.Owner), owner => owner.Text("name") == "Otter");
        scene.Page.Full = null;
        await AddOwner(scene, "Otter");
        Assert.Null(scene.Device.StoreFault);
    }

    [Fact]
    public async Task Others_changes_arrive_and_a_conflict_shows_both()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid owner = await AddOwner(scene, "Otter");
        await scene.UntilAsync(() => scene.Device.Replica.Waiting.Count == 0);
        IReadOnlyList<Guid> seen = scene.Device.Replica[owner]!["name"].Ids;
        scene.Workshop.Take(Name(owner, "Otter, by the desk", seen), "Desk");
        scene.Workshop.Take(Name(owner, "Otter, by the garden", seen), "Garden");

        await scene.OnPageAsync(() => { scene.Device.Wake(); return Task.CompletedTask; });
        await scene.UntilAsync(() => scene.Device.Replica[owner]!.Conflicts.Any());

        Assert.Equal(2, scene.Device.Replica[owner]!["name"].Values.Count);
    }

    [Fact]
    public async Task Another_workshop_at_the_same_address_gets_a_store_of_its_own()
    {
        FakeWorkshop workshop = new();
        MemoryPage page = new();
        using Scene first = new(workshop, page);
        await first.StartAsync();
        string? store = page.OpenedStore;

        workshop.Me = workshop.Me with { Workshop = Guid.CreateVersion7(), IsDemo = true };
        await first.OnPageAsync(first.Device.AskWhoAsync);
        Assert.Equal(1, page.Reloads);
        using Scene second = new(workshop, page);
        await second.OnPageAsync(second.Device.StartAsync);

        Assert.NotEqual(store, page.OpenedStore);
    }

    [Fact]
    public async Task Everything_unsent_can_be_saved_as_a_batch_that_the_server_would_take()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;
        Guid owner = await AddOwner(scene, "Otter");

        Change unsent = Assert.Single(JsonSerializer.Deserialize(scene.Device.UnsentAsFile(), WorkshopJson.Default.ChangeBatch)!.Changes);

        Assert.Equal(owner, unsent.Record);
    }

    private static async Task<Guid> AddOwner(Scene scene, string name)
    {
        Guid id = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(id, RecordKind.Owner, ("name", Json.Text(name)));
        return id;
    }

    private static Change Name(Guid owner, string name, IReadOnlyList<Guid> seen) => new(
        Guid.CreateVersion7(), RecordKind.Owner, owner, new Dictionary<string, JsonElement> { ["name"] = Json.Text(name) },
        new Dictionary<string, IReadOnlyList<Guid>> { ["name"] = seen }, DateTimeOffset.UnixEpoch);
}
