using System.Net;
using Swardloop.Client.Device;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Device;

public class PhotoDeliveryTests
{
    private static readonly TakenPhoto Taken = new([7, 7, 7], [7], new(2026, 5, 14, 9, 0, 0, TimeSpan.FromHours(2)));

    [Fact]
    public async Task Photo_taken_without_connection_waits_through_a_reload_and_arrives_once_with_its_record()
    {
        Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        scene.Workshop.IsOutOfReach = true;
        Guid photo = await KeepAsync(scene, yard);
        Assert.True(scene.Device.Replica.IsPhotoWaiting(photo));
        Assert.Empty(scene.Workshop.Photos);

        scene.Dispose(); // a page that is loaded again goes first
        scene.Workshop.IsOutOfReach = false;
        using Scene again = new(scene.Workshop, scene.Page);
        await again.StartAsync();
        await again.UntilAsync(() => !again.Device.Replica.IsPhotoWaiting(photo));

        Assert.Equal(Taken.Large, again.Workshop.Photos[photo]);
        Assert.Equal(1, again.Workshop.PhotosPut);
        Assert.Empty(again.Page.Part("sending"));
        Assert.Equal(Taken.Large, again.Page.Photos[$"{photo} large"]);
    }

    [Fact]
    public async Task Answer_lost_on_the_way_sends_the_same_bytes_again_and_the_photo_leaves_the_outbox_only_then()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        scene.Workshop.LosesPhotoAnswers = true;

        Guid photo = await KeepAsync(scene, yard);
        await scene.UntilAsync(() => scene.Workshop.PhotosPut > 0);
        Assert.True(scene.Device.Replica.IsPhotoWaiting(photo));
        Assert.NotEmpty(scene.Page.Part("sending"));
        scene.Workshop.LosesPhotoAnswers = false;
        await scene.UntilAsync(() =>
        {
            scene.Device.Wake();
            return !scene.Device.Replica.IsPhotoWaiting(photo);
        });

        Assert.True(scene.Workshop.PhotosPut > 1);
        Assert.Equal(Taken.Large, scene.Workshop.Photos[photo]);
    }

    [Fact]
    public async Task Refused_photo_keeps_its_bytes_and_its_reason_until_a_person_throws_it_away()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        scene.Workshop.PhotoRefusal = HttpStatusCode.UnsupportedMediaType;

        Guid photo = await KeepAsync(scene, yard);
        await scene.UntilAsync(() => scene.Device.Replica.WaitingPhotos.Any(waiting => waiting.Refusal is not null));
        Assert.NotEmpty(scene.Page.Photos);

        await scene.OnPageAsync(() => scene.Device.SettlePhotoAsync(photo, again: false));
        Assert.Empty(scene.Page.Photos);
        Assert.Empty(scene.Page.Part("sending"));
    }

    [Fact]
    public async Task Full_store_takes_neither_record_nor_bytes()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        scene.Page.Full = "QuotaExceededError";

        await Assert.ThrowsAnyAsync<Exception>(() => KeepAsync(scene, yard));

        Assert.Empty(scene.Device.Replica.OfKind(RecordKind.Photo));
        Assert.Empty(scene.Page.Photos);
    }

    [Fact]
    public async Task Photo_of_a_colleague_is_fetched_once_and_then_shown_without_connection()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid photo = Guid.CreateVersion7();
        scene.Workshop.Photos[photo] = [4, 2];

        string? first = null, second = null, unknown = null;
        await scene.OnPageAsync(async () => first = await scene.Device.PhotoUrlAsync(photo, isLarge: false));
        scene.Workshop.IsOutOfReach = true;
        await scene.OnPageAsync(async () => second = await scene.Device.PhotoUrlAsync(photo, isLarge: false));
        await scene.OnPageAsync(async () => unknown = await scene.Device.PhotoUrlAsync(Guid.CreateVersion7(), isLarge: false));

        Assert.Equal(first, second);
        Assert.NotNull(first);
        Assert.Null(unknown);
    }

    private static async Task<Guid> KeepAsync(Scene scene, Guid yard)
    {
        Guid photo = default;
        await scene.OnPageAsync(async () => photo = await scene.Device.KeepPhotoAsync(Taken, yard, yard, 12.5, new(54.2, -3.1, 5)));
        RecordState record = scene.Device.Replica[photo]!;
        Assert.Equal(12.5, record.Number("jointAtM"));
        Assert.Equal("""{"latitude":54.2,"longitude":-3.1}""", record.Value("position")!.Value.GetRawText());
        Assert.Empty(scene.Device.ProblemsOf(new(Guid.CreateVersion7(), RecordKind.Photo, Guid.CreateVersion7(), record.Fields.ToDictionary(field => field.Key, field => field.Value.Shown!.Value), new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UnixEpoch)));
        return photo;
    }
}
