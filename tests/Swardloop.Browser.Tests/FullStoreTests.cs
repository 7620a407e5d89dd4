using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>No room left on the device.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class FullStoreTests(ServedApp app)
{
    [Fact]
    public async Task Full_device_is_said_before_and_when_nothing_typed_is_lost_and_the_file_of_it_is_taken_in_once()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Clover Otter" });
        await using Room room = await Room.OfAsync(app, 390, 844);
        IPage page = room.Page;
        await OwnerPage.OpenAsync(page, app, owner, "Clover Otter");
        await OwnerPage.ServedByWorkerAsync(page);
        await OwnerPage.AllArrivedAsync(page);

        await room.LeaveAsync(5e6);
        await OwnerPage.LookAsync(page);
        await Expect(page.GetByText("MB of room are left on this device")).ToBeVisibleAsync();
        await OwnerPage.RenameAsync(page, "Clover Sedge");
        await OwnerPage.AllArrivedAsync(page);

        // Less than is used already: what the store gives back when it tidies up drafts must not make room again.
        app.Kill();
        await room.LeaveAsync(-1e6);
        await room.FillAsync();
        await OwnerPage.RenameAsync(page, "Clover Thimble");
        await OwnerPage.CallAsync(page, "0123 321");
        await Expect(OwnerPage.Status(page)).ToContainTextAsync("2 changes not saved");
        await Expect(page.GetByRole(AriaRole.Alert).Filter(new() { HasText = "The room on this device is used up" })).ToBeVisibleAsync();
        await Expect(page.GetByLabel("Telephone")).ToHaveValueAsync("0123 321");
        IDownload download = await page.RunAndWaitForDownloadAsync(() => page.Locator(".device-notice button").ClickAsync());
        string file = Path.Combine(Directory.CreateTempSubdirectory("swardloop-").FullName, "unsent.json");
        await download.SaveAsAsync(file);
        Assert.Equal(2, JsonDocument.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken)).RootElement.GetProperty("changes").GetArrayLength());

        // Another device takes the file in, twice; then the first one gets a connection, and room.
        await page.Context.SetOfflineAsync(true);
        await app.StartAsync();
        IPage other = await app.SignedInAsync();
        await OwnerPage.Status(other).ClickAsync();
        string copy = Path.ChangeExtension(file, ".copy.json"); // a field told the same path again hears no change
        File.Copy(file, copy);
        foreach ((string chosen, string says) in (IEnumerable<(string, string)>)[(file, "2 changes, 2 of them new here"), (copy, "2 changes, 0 of them new here")])
        {
            await other.GetByLabel("Take in such a file").SetInputFilesAsync(chosen);
            await Expect(other.GetByText(says)).ToBeVisibleAsync();
            await OwnerPage.AllArrivedAsync(other);
        }

        await room.LeaveAsync(500e6);
        await page.Context.SetOfflineAsync(false);
        await OwnerPage.LookAsync(page);
        await OwnerPage.AllArrivedAsync(page);
        await Expect(page.Locator(".device-notice")).ToHaveCountAsync(0);
        Assert.Equal(["Clover Otter", "Clover Sedge", "Clover Thimble"], await app.HistoryAsync(owner, "name"));
        Assert.Equal(["0123 321"], await app.HistoryAsync(owner, "phone"));
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        await other.Context.CloseAsync();
    }

    [Fact]
    public async Task Connected_device_without_room_still_brings_what_is_typed_to_the_workshop()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Yarrow Otter" });
        await using Room room = await Room.OfAsync(app, 1440, 900);
        IPage page = room.Page;
        await OwnerPage.OpenAsync(page, app, owner, "Yarrow Otter");
        await OwnerPage.ServedByWorkerAsync(page);
        await OwnerPage.AllArrivedAsync(page);
        await room.LeaveAsync(1e6);
        await room.FillAsync();

        await OwnerPage.RenameAsync(page, "Yarrow Sedge");
        await Expect(OwnerPage.Status(page)).Not.ToContainTextAsync("not saved");
        await OwnerPage.LookAsync(page);
        await OwnerPage.AllArrivedAsync(page);

        Assert.Equal(["Yarrow Otter", "Yarrow Sedge"], await app.HistoryAsync(owner, "name"));
    }

    /// <summary>A device with so much room and no more.</summary>
    private sealed class Room(ServedApp app, IPage page, ICDPSession browser) : IAsyncDisposable
    {
        public IPage Page => page;

        public static async Task<Room> OfAsync(ServedApp app, int width, int height)
        {
            IPage page = await app.DeviceAsync(width, height);
            await app.SignInAsync(page.Context);
            Room room = new(app, page, await page.Context.NewCDPSessionAsync(page));
            await room.MostAsync(100e6);
            await page.GotoAsync(app.Root);
            return room;
        }

        /// <summary>Leaves so many bytes beside what is used.</summary>
        public async Task LeaveAsync(double bytes) => await MostAsync(await page.EvaluateAsync<double>("navigator.storage.estimate().then(room => room.usage)") + bytes);

        /// <summary>Uses up what is left, to the last hundred bytes, with numbers that cannot be pressed together.</summary>
        public async Task FillAsync() => await page.EvaluateAsync(
            """
            () => new Promise((done, failed) => {
                const opening = indexedDB.open("junk", 1);
                opening.onupgradeneeded = () => opening.result.createObjectStore("junk");
                opening.onerror = () => failed(opening.error);
                opening.onsuccess = async () => {
                    const put = size => new Promise(put => {
                        const junk = new Uint8Array(size);
                        for (let at = 0; at < size; at += 65536) crypto.getRandomValues(junk.subarray(at, Math.min(size, at + 65536)));
                        const writing = opening.result.transaction("junk", "readwrite");
                        writing.objectStore("junk").add(junk, crypto.randomUUID());
                        writing.oncomplete = () => put(true);
                        writing.onabort = () => put(false);
                    });
                    // The first is more than there can be: the browser then looks anew how much there is.
                    for (let size = 120e6; size >= 50; size = Math.floor(size / 2)) while (await put(size));
                    opening.result.close();
                    done();
                };
            })
            """);

        public ValueTask DisposeAsync() => new(page.Context.CloseAsync());

        private async Task MostAsync(double bytes) => await browser.SendAsync("Storage.overrideQuotaForOrigin", new() { ["origin"] = app.Root, ["quotaSize"] = bytes });
    }
}
