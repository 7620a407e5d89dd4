using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Swardloop.Client.Device;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Device;

public class UnsentFileTests
{
    private static readonly TakenPhoto Taken = new([0xFF, 0xD8, 7, 7], [0xFF, 0xD8, 7], new(2026, 5, 14, 9, 0, 0, TimeSpan.FromHours(2)));

    [Fact]
    public async Task Without_photos_it_is_a_batch_that_the_server_would_take()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;
        Guid owner = await AddOwnerAsync(scene, "Otter");

        await scene.OnPageAsync(scene.Device.SaveUnsentAsync);

        (string name, byte[] bytes) = Assert.Single(scene.Page.SavedBytes);
        Assert.Equal("swardloop-unsent.json", name);
        Assert.Equal(owner, Assert.Single(JsonSerializer.Deserialize(bytes, WorkshopJson.Default.ChangeBatch)!.Changes).Record);
    }

    [Fact]
    public async Task Changes_and_photos_are_taken_in_once_however_often_the_file_comes()
    {
        using Scene from = new();
        await from.StartAsync();
        from.Workshop.IsOutOfReach = true;
        Guid owner = await AddOwnerAsync(from, "Otter"), photo = await KeepPhotoAsync(from);
        byte[] file = await FileOfAsync(from);

        using Scene to = new();
        await to.StartAsync();
        to.Workshop.IsOutOfReach = true;
        UnsentTakenIn first = await TakeInAsync(to, file), second = await TakeInAsync(to, file);
        Assert.Equal(new(2, 2, 1, 1, 0), first);
        Assert.Equal(new(0, 2, 0, 1, 0), second);
        Assert.Equal(Taken.Small, to.Page.Photos[$"{photo} small"]);

        to.Workshop.IsOutOfReach = false;
        await AllArrivesAsync(to);
        UnsentTakenIn third = await TakeInAsync(to, file);
        await AllArrivesAsync(to);

        Assert.Equal(new(0, 2, 0, 1, 0), third);
        Assert.Equal("Otter", to.Workshop.Records[owner].Text("name"));
        Assert.Single(to.Device.Replica[owner]!["name"].Values);
        Assert.Equal(Taken.Large, to.Workshop.Photos[photo]);
        Assert.Equal(1, to.Workshop.PhotosPut);
    }

    [Fact]
    public async Task A_file_of_another_workshop_is_not_taken_in()
    {
        using Scene demo = new();
        await demo.StartAsync();
        demo.Workshop.IsOutOfReach = true;
        await AddOwnerAsync(demo, "Otter");
        byte[] file = await FileOfAsync(demo);

        FakeWorkshop other = new();
        other.Me = other.Me with { Workshop = Guid.CreateVersion7() };
        using Scene own = new(other);
        await own.StartAsync();
        await Assert.ThrowsAsync<OtherWorkshopException>(() => TakeInAsync(own, file));
        Assert.False(own.Device.HasUnsent);
    }

    [Fact]
    public async Task Both_devices_may_deliver_the_same_photo()
    {
        using Scene from = new();
        await from.StartAsync();
        from.Workshop.IsOutOfReach = true;
        Guid photo = await KeepPhotoAsync(from);
        byte[] file = await FileOfAsync(from);

        using Scene to = new(from.Workshop);
        from.Workshop.IsOutOfReach = false;
        await to.StartAsync();
        await TakeInAsync(to, file);
        await AllArrivesAsync(to);
        await AllArrivesAsync(from);

        Assert.Equal(Taken.Large, from.Workshop.Photos[photo]);
        Assert.All(from.Device.Replica.WaitingPhotos.Concat(to.Device.Replica.WaitingPhotos), waiting => Assert.Null(waiting.Refusal));
    }

    [Fact]
    public async Task Photo_whose_record_has_arrived_is_in_the_file_alone()
    {
        using Scene from = new();
        await from.StartAsync();
        from.Workshop.LosesPhotoAnswers = true;
        Guid photo = await KeepPhotoAsync(from);
        await from.UntilAsync(() => from.Workshop.Records.ContainsKey(photo) && from.Device.Replica.Waiting.Count == 0);

        UnsentFile file = UnsentFile.Read(await FileOfAsync(from));

        Assert.Empty(file.Batch.Changes);
        Assert.Equal(photo, Assert.Single(file.Photos).Id);
    }

    [Fact]
    public async Task Photo_of_a_record_that_is_not_known_here_stays_in_the_file_and_is_told()
    {
        using Scene scene = new();
        await scene.StartAsync();

        UnsentTakenIn came = await TakeInAsync(scene, new UnsentFile(new([]), [new(Guid.CreateVersion7(), Taken.Large, null)]).ToBytes());

        Assert.Equal(new(0, 0, 0, 1, 1), came);
        Assert.Empty(scene.Device.Replica.WaitingPhotos);
    }

    [Fact]
    public async Task Photo_that_cannot_be_read_is_told_and_the_rest_is_in_the_file()
    {
        using Scene scene = new();
        await scene.StartAsync();
        scene.Workshop.IsOutOfReach = true;
        await KeepPhotoAsync(scene);
        scene.Page.Unreadable = "UnknownError";

        int missing = 0;
        await scene.OnPageAsync(async () => missing = await scene.Device.SaveUnsentAsync());

        Assert.Equal(1, missing);
        Assert.Single(UnsentFile.Read(Assert.Single(scene.Page.SavedBytes).Bytes).Batch.Changes);
    }

    [Fact]
    public async Task Photo_that_finds_no_room_is_not_taken_in_and_comes_with_the_next_reading_of_the_file()
    {
        using Scene from = new();
        await from.StartAsync();
        from.Workshop.IsOutOfReach = true;
        Guid photo = await KeepPhotoAsync(from);
        byte[] file = await FileOfAsync(from);
        using Scene to = new();
        await to.StartAsync();
        to.Workshop.IsOutOfReach = true;
        to.Page.Full = "QuotaExceededError: ";

        await Assert.ThrowsAnyAsync<Exception>(() => TakeInAsync(to, file));
        Assert.False(to.Device.Replica.IsPhotoWaiting(photo));

        to.Page.Full = null;
        Assert.Equal(new(0, 1, 1, 1, 0), await TakeInAsync(to, file));
    }

    [Theory]
    [InlineData("{\"yard\":1}")]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("")]
    public void Text_of_something_else_is_refused(string text) => Assert.ThrowsAny<JsonException>(() => UnsentFile.Read(Encoding.UTF8.GetBytes(text)));

    [Fact]
    public void Zip_of_something_else_or_cut_off_is_refused()
    {
        using MemoryStream other = new();
        using (ZipArchive zip = new(other, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.CreateEntry("letter.txt");
        }

        Assert.Throws<InvalidDataException>(() => UnsentFile.Read(other.ToArray()));
        byte[] whole = new UnsentFile(new([]), [new(Guid.CreateVersion7(), Taken.Large, Taken.Small)]).ToBytes();
        Assert.Throws<InvalidDataException>(() => UnsentFile.Read(whole[..^30]));
    }

    private static async Task<Guid> AddOwnerAsync(Scene scene, string name)
    {
        Guid id = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(id, RecordKind.Owner, ("name", Json.Text(name)));
        return id;
    }

    private static async Task<Guid> KeepPhotoAsync(Scene scene)
    {
        Guid yard = Guid.CreateVersion7(), photo = default;
        await scene.OnPageAsync(async () => photo = await scene.Device.KeepPhotoAsync(Taken, yard, yard, null, null));
        return photo;
    }

    private static async Task<byte[]> FileOfAsync(Scene scene)
    {
        byte[] file = [];
        await scene.OnPageAsync(async () => file = (await scene.Device.UnsentAsync()).File.ToBytes());
        return file;
    }

    private static async Task<UnsentTakenIn> TakeInAsync(Scene scene, byte[] file)
    {
        UnsentTakenIn came = new(0, 0, 0, 0, 0);
        await scene.OnPageAsync(async () => came = await scene.Device.TakeInAsync(file));
        return came;
    }

    private static async Task AllArrivesAsync(Scene scene)
    {
        await scene.OnPageAsync(() => { scene.Device.Wake(); return Task.CompletedTask; });
        await scene.UntilAsync(() => !scene.Device.HasUnsent);
    }
}
