using System.Text.Json;
using Swardloop.Client.Device;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

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
    public async Task Full_store_is_said_what_was_typed_stays_and_is_saved_as_soon_as_there_is_room()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;
        scene.Page.Full = "QuotaExceededError: ";

        Guid owner = await AddOwner(scene, "Otter");

        Assert.True(scene.Device.IsFull);
        Assert.Single(scene.Device.Unsaved);
        Assert.True(scene.Page.AsksBeforeLeaving);
        Assert.Equal("Otter", scene.Device.Replica[owner]!.Text("name"));
        Assert.Empty(scene.Page.Part("waiting"));
        (UnsentFile file, _) = await scene.Device.UnsentAsync();
        Assert.Equal(owner, Assert.Single(file.Batch.Changes).Record);

        scene.Page.Full = null;
        await scene.OnPageAsync(() => { scene.Device.Wake(); return Task.CompletedTask; });
        await scene.UntilAsync(() => scene.Device.Unsaved.Count == 0);
        Assert.False(scene.Page.AsksBeforeLeaving);
        Assert.Null(scene.Device.StoreFault);
        Assert.Single(scene.Page.Part("waiting"));
    }

    [Fact]
    public async Task With_a_full_store_and_a_connection_what_was_typed_arrives_once()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Page.Full = "QuotaExceededError: ";

        Guid owner = await AddOwner(scene, "Otter");
        await scene.UntilAsync(() => scene.Device.Unsaved.Count == 0);

        Assert.Equal("Otter", scene.Workshop.Records[owner].Text("name"));
        Assert.Empty(scene.Device.Replica.Waiting);
    }

    [Fact]
    public async Task One_change_that_the_server_cannot_read_is_refused_alone_and_holds_up_nothing()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;
        Guid before = await AddOwner(scene, "Otter"), unreadable = await AddOwner(scene, "cannot be read"), after = await AddOwner(scene, "Sedge");

        scene.Workshop.IsOutOfReach = false;
        await scene.OnPageAsync(() => { scene.Device.Wake(); return Task.CompletedTask; });
        await scene.UntilAsync(() => scene.Workshop.Records.ContainsKey(after));

        Assert.True(scene.Workshop.Records.ContainsKey(before));
        await scene.UntilAsync(() => scene.Device.Replica.Waiting.Count == 1);
        Assert.Equal(unreadable, Assert.Single(scene.Device.Replica.Waiting, waiting => waiting.Refusal is not null).Change.Record);
    }

    [Fact]
    public async Task Change_made_while_the_store_is_read_anew_is_not_lost_from_the_screen()
    {
        using Scene scene = new(page: new() { LeadsAtOnce = false });
        scene.Workshop.IsOutOfReach = true;
        scene.Page.Remember("me", JsonSerializer.Serialize(scene.Workshop.Me, WorkshopJson.Default.Me));
        await scene.OnPageAsync(scene.Device.StartAsync);
        TaskCompletionSource goOn = new();
        scene.Page.AfterReading = part => part == "waiting" ? goOn.Task : Task.CompletedTask;

        Guid owner = default;
        Task making = Task.CompletedTask;
        await scene.OnPageAsync(() =>
        {
            scene.Page.TakesLead!();
            making = AddOwnerHere();
            goOn.SetResult();
            return making;

            async Task AddOwnerHere()
            {
                owner = scene.Device.Replica.NewId(scene.Device.Now);
                await scene.Device.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Otter")));
            }
        });

        await scene.UntilAsync(() => scene.Device.Replica[owner] is not null);
        Assert.Single(scene.Device.Replica.Waiting);
    }

    [Fact]
    public async Task What_another_tab_writes_while_the_store_is_read_is_not_missed()
    {
        using Scene scene = new(page: new() { LeadsAtOnce = false });
        scene.Workshop.IsOutOfReach = true;
        scene.Page.Remember("me", JsonSerializer.Serialize(scene.Workshop.Me, WorkshopJson.Default.Me));
        await scene.OnPageAsync(scene.Device.StartAsync);
        Guid owner = Guid.CreateVersion7();
        WaitingChange waiting = new(Name(owner, "Otter", []), "Robin", "robin@swardloop.example");
        scene.Page.AfterReading = part =>
        {
            if (part == "waiting")
            {
                scene.Page.AfterReading = _ => Task.CompletedTask;
                scene.Page.Hears!(JsonSerializer.Serialize(DeviceWrite.Made(waiting), WorkshopJson.Default.DeviceWrite));
            }

            return Task.CompletedTask;
        };

        await scene.OnPageAsync(() => { scene.Page.TakesLead!(); return Task.CompletedTask; });

        await scene.UntilAsync(() => scene.Device.Replica[owner] is not null);
    }

    [Fact]
    public async Task Wrong_clock_is_noticed_and_set_right_by_the_servers()
    {
        using Scene scene = new(clock: new OffClock(TimeSpan.FromDays(1)));
        await scene.StartAsync();

        Assert.NotNull(scene.Device.ClockAhead);
        Assert.InRange(scene.Device.ClockAhead.Value.TotalHours, 23.9, 24.1);
        Assert.InRange((scene.Device.Now - DateTimeOffset.UtcNow).TotalMinutes, -5, 5);
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

    private static async Task<Guid> AddOwner(Scene scene, string name)
    {
        Guid id = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(id, RecordKind.Owner, ("name", Json.Text(name)));
        return id;
    }

    private static Change Name(Guid owner, string name, IReadOnlyList<Guid> seen) => new(
        Guid.CreateVersion7(), RecordKind.Owner, owner, new Dictionary<string, JsonElement> { ["name"] = Json.Text(name) },
        new Dictionary<string, IReadOnlyList<Guid>> { ["name"] = seen }, DateTimeOffset.UnixEpoch);

    private sealed class OffClock(TimeSpan by) : TimeProvider
    {
        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + by;
    }
}
