using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>What one device could not send, carried to another as a file.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class UnsentFileTests(ServedApp app)
{
    [Fact]
    public async Task Change_and_photo_of_a_device_without_reception_arrive_once_from_another_device_that_took_the_file_in_twice()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name = "Teasel Weir", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "stops beside the pond", onSite = true });
        IPage page = await app.SignedInAsync(390, 844);
        await page.GotoAsync($"{app.Root}/case/{@case}");
        await OwnerPage.AllArrivedAsync(page);
        await OwnerPage.ServedByWorkerAsync(page);

        await page.Context.SetOfflineAsync(true);
        await page.Locator(".photo-take input").Last.SetInputFilesAsync(new FilePayload { Name = "pond.png", MimeType = "image/png", Buffer = await page.ScreenshotAsync() });
        await Expect(page.Locator(".photos")).ToContainTextAsync("saved here");
        await OwnerPage.Status(page).ClickAsync();
        IDownload download = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Button, new() { Name = "Save all unsent to a file" }).ClickAsync());
        string file = Path.Combine(Directory.CreateTempSubdirectory("swardloop-").FullName, download.SuggestedFilename);
        await download.SaveAsAsync(file);
        Assert.EndsWith(".zip", file, StringComparison.Ordinal);

        IPage other = await app.SignedInAsync();
        await OwnerPage.Status(other).ClickAsync();
        string copy = Path.ChangeExtension(file, ".copy.zip"); // a field told the same path again hears no change
        File.Copy(file, copy);
        foreach ((string chosen, string says) in (IEnumerable<(string, string)>)
            [(file, "1 change, 1 of them new here; 1 photo, 1 of them new here"), (copy, "1 change, 0 of them new here; 1 photo, 0 of them new here")])
        {
            await other.GetByLabel("Take in such a file").SetInputFilesAsync(chosen);
            await Expect(other.GetByText(says)).ToBeVisibleAsync();
            await OwnerPage.AllArrivedAsync(other);
        }

        await other.Context.SetOfflineAsync(true); // what it shows now is its own
        await other.GotoAsync($"{app.Root}/case/{@case}");
        await Expect(other.Locator(".photos img")).ToHaveCountAsync(1);
        Assert.True(await other.Locator(".photos img").EvaluateAsync<int>("async image => (await image.decode(), image.naturalWidth)") > 0);

        // The first device is back: the same photo once more, and it is no second one.
        await page.Keyboard.PressAsync("Escape");
        await page.Context.SetOfflineAsync(false);
        await OwnerPage.AllArrivedAsync(page);
        Guid photo = Assert.Single(
            (await app.GetAsync($"api/cases/{@case}/bundle")).GetProperty("records").EnumerateArray(), record => record.GetProperty("kind").GetString() == "photo").GetProperty("id").GetGuid();
        Assert.Single(await app.HistoryAsync(photo, "of"));
        IAPIResponse picture = await page.Context.APIRequest.GetAsync($"{app.Root}/api/photos/{photo}");
        Assert.Equal("image/jpeg", picture.Headers["content-type"]);
        Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
        await other.Context.CloseAsync();
        await page.Context.CloseAsync();
    }
}
