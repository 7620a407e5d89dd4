using System.Globalization;
using Swardloop.Client.Device;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Device;

public class TakeAlongTests
{
    [Fact]
    public async Task Photos_of_todays_visits_and_of_pinned_yards_are_fetched_and_no_others()
    {
        using Scene scene = new();
        await scene.StartAsync();
        (Guid yard, Guid photo) visited = await AddYardWithPhotoAsync(scene), pinned = await AddYardWithPhotoAsync(scene), other = await AddYardWithPhotoAsync(scene);
        await scene.ChangeAsync(Id(scene), RecordKind.Visit, ("yard", Json.Text(visited.yard.ToString())), ("on", Json.Text(scene.Device.Now.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture))));

        await scene.UntilAsync(() => IsHere(scene, visited.photo));
        Assert.False(IsHere(scene, pinned.photo));
        await scene.OnPageAsync(() => { scene.Device.Pin(pinned.yard, true); return Task.CompletedTask; });
        await scene.UntilAsync(() => IsHere(scene, pinned.photo));

        Assert.False(IsHere(scene, other.photo));
        Assert.Equal([pinned.yard], scene.Device.Pinned);
        Assert.Equal([visited.yard], scene.Device.VisitedToday);
    }

    [Fact]
    public async Task Photos_of_other_yards_are_removed_on_request_and_those_that_wait_stay()
    {
        using Scene scene = new();
        await scene.StartAsync();
        (Guid yard, Guid photo) pinned = await AddYardWithPhotoAsync(scene), other = await AddYardWithPhotoAsync(scene);
        await scene.OnPageAsync(() => { scene.Device.Pin(pinned.yard, true); return scene.Device.PhotoUrlAsync(other.photo, isLarge: true); });
        await scene.UntilAsync(() => IsHere(scene, pinned.photo));
        scene.Workshop.IsOutOfReach = true;
        Guid waits = default;
        await scene.OnPageAsync(async () => waits = await scene.Device.KeepPhotoAsync(new([1, 2], [1], scene.Device.Now), other.yard, other.yard, null, null));

        await scene.OnPageAsync(scene.Device.DropOtherPhotosAsync);

        Assert.True(IsHere(scene, pinned.photo));
        Assert.Contains($"{waits} large", scene.Page.Photos.Keys);
        Assert.DoesNotContain(scene.Page.Photos.Keys, key => key.StartsWith(other.photo.ToString(), StringComparison.Ordinal));
        Assert.Equal(3, (await scene.Device.PhotosHereAsync()).Single(here => here.Photo == waits).Bytes);
    }

    [Fact]
    public async Task Nothing_is_taken_along_when_the_room_ends()
    {
        using Scene scene = new();
        scene.Page.Room = new(995e6, 1e9, true);
        await scene.StartAsync();
        (Guid yard, Guid photo) = await AddYardWithPhotoAsync(scene);
        await scene.OnPageAsync(() => { scene.Device.Pin(yard, true); return Task.CompletedTask; });
        (Guid later, _) = await AddYardWithPhotoAsync(scene);
        await scene.UntilAsync(() => scene.Workshop.Records.ContainsKey(later) && scene.Device.Replica.Waiting.Count == 0);

        Assert.True(scene.Device.Room is { IsNearlyFull: true });
        Assert.False(IsHere(scene, photo));
    }

    private static bool IsHere(Scene scene, Guid photo) => scene.Page.Photos.ContainsKey($"{photo} large") && scene.Page.Photos.ContainsKey($"{photo} small");

    private static Guid Id(Scene scene) => scene.Device.Replica.NewId(scene.Device.Now);

    /// <summary>A yard whose owner has sent a photo: it is at the workshop, and its bytes are not here.</summary>
    private static async Task<(Guid Yard, Guid Photo)> AddYardWithPhotoAsync(Scene scene)
    {
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"), photo = Id(scene);
        scene.Workshop.Photos[photo] = [7, 7, 7];
        await scene.ChangeAsync(photo, RecordKind.Photo, ("of", Json.Text(yard.ToString())), ("yard", Json.Text(yard.ToString())));
        await scene.UntilAsync(() => scene.Device.Replica.Waiting.Count == 0);
        return (yard, photo);
    }
}
