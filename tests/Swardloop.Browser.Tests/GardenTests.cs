using System.Text.Json;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>The garden on a phone: by touch, without reception, with a photo, and with a page that dies in the middle.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class GardenTests(ServedApp app)
{
    [Fact]
    public async Task Last_reading_by_thumb_with_a_photo_and_a_reload_in_the_middle_arrives_once()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name = "Bramble Weir", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "stops beside the pond", onSite = true });
        Guid repaired = await app.AddAsync("observation", new { yard, @case, reading = new { repair = "remake-terminals" } });
        Guid runs = await app.AddAsync("observation", new { yard, @case, after = repaired, reading = new { test = "mower-check", value = "runs" } });

        IPage page = await app.DeviceAsync(390, 844, hasTouch: true);
        await app.SignInAsync(page.Context);
        await page.GotoAsync($"{app.Root}/case/{@case}");
        await page.GetByRole(AriaRole.Link, new() { Name = "In the garden" }).TapAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the last reading" }).TapAsync();
        await OwnerPage.AllArrivedAsync(page);
        await OwnerPage.ServedByWorkerAsync(page);

        // Cautions, and nothing else before they are ticked.
        await Expect(page.Locator(".cautions")).ToBeVisibleAsync();
        await Expect(page.Locator(".how")).ToHaveCountAsync(0);
        await NoViolationsAsync(page, "cautions");
        await page.Context.SetOfflineAsync(true);
        await OwnerPage.HeedAsync(page);

        await Expect(page.Locator(".how")).ToBeVisibleAsync();
        await page.Locator("summary.big").TapAsync();
        await page.Locator(".garden .sw-line").TapAsync();
        await Expect(page.Locator(".garden .sw-place")).ToContainTextAsync(" m");
        await page.Locator(".photo-take input").SetInputFilesAsync(new FilePayload { Name = "pond.png", MimeType = "image/png", Buffer = await page.ScreenshotAsync() });
        await Expect(page.Locator(".photos img")).ToBeVisibleAsync();
        await Expect(page.Locator(".photos")).ToContainTextAsync("saved here");
        await NoViolationsAsync(page, "instructions");

        await page.GetByRole(AriaRole.Button, new() { Name = "Enter the result" }).TapAsync();
        // The leads are asked for once a visit, and taken off in sight.
        await Expect(page.Locator(".pad h2")).ToContainTextAsync("leads");
        await TypeAsync(page, "0.3");
        await page.Locator(".pad-done").TapAsync();
        await Expect(page.Locator(".pad h2")).Not.ToContainTextAsync("leads touched");
        await TypeAsync(page, "4.1");
        await Expect(page.Locator(".pad")).ToContainTextAsync("less leads");
        await NoViolationsAsync(page, "number pad");
        Assert.All(await page.Locator(".pad-keys button").EvaluateAllAsync<double[]>("keys => keys.map(key => key.getBoundingClientRect().height)"), height => Assert.True(height >= 56));

        // The phone throws the page away; the number stands there again, and the photo is still the step's.
        await Expect(page.Locator(".pad-shown")).ToHaveTextAsync("4.1 Ω");
        await page.ReloadAsync();
        await Expect(page.Locator(".pad-shown")).ToHaveTextAsync("4.1 Ω");
        await page.Locator(".pad-done").TapAsync();
        await Expect(page.Locator(".garden-recorded")).ToContainTextAsync("Saved here");
        await Expect(page.GetByText("Last reading:")).ToBeVisibleAsync();

        await page.Context.SetOfflineAsync(false);
        await OwnerPage.AllArrivedAsync(page);
        JsonElement[] records = [.. (await app.GetAsync($"api/cases/{@case}/bundle")).GetProperty("records").EnumerateArray()];
        Guid[] readings = [.. records.Where(record => record.GetProperty("kind").GetString() == "observation").Select(record => record.GetProperty("id").GetGuid()).Except([repaired, runs])];
        Guid reading = Assert.Single(readings);
        Assert.Equal(4.1, JsonSerializer.Deserialize<JsonElement>(Assert.Single(await app.HistoryAsync(reading, "reading"))).GetProperty("ohms").GetDouble());
        Guid photo = Assert.Single(records, record => record.GetProperty("kind").GetString() == "photo").GetProperty("id").GetGuid();
        Assert.Equal([@case.ToString(), reading.ToString()], await app.HistoryAsync(photo, "of"));

        // Somebody else sees it beside the reading.
        IPage desk = await app.SignedInAsync();
        await desk.GotoAsync($"{app.Root}/case/{@case}");
        await Expect(desk.Locator(".known .photos img")).ToBeVisibleAsync();
        Assert.True(await desk.Locator(".known .photos img").EvaluateAsync<int>("async image => (await image.decode(), image.naturalWidth)") is > 0 and <= 320);
        await desk.Context.CloseAsync();
        await page.Context.CloseAsync();
    }

    private static async Task TypeAsync(IPage page, string keys)
    {
        foreach (char key in keys)
        {
            await page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new($"^{System.Text.RegularExpressions.Regex.Escape(key.ToString())}$") }).TapAsync();
        }
    }

    /// <summary>In light, dark and sun; in sun every contrast is 7 : 1.</summary>
    private static async Task NoViolationsAsync(IPage page, string screen)
    {
        foreach (string appearance in (string[])["light", "dark", "sun"])
        {
            await page.EvaluateAsync("appearance => document.documentElement.dataset.appearance = appearance", appearance);
            AxeRunOptions options = new() { Rules = new() { ["color-contrast-enhanced"] = new() { Enabled = appearance == "sun" } } };
            AxeResult result = await page.RunAxe(options);
            Assert.True(result.Violations.Length == 0, $"{screen}, {appearance}: " + string.Join("; ", result.Violations.Select(found => $"{found.Id}: {found.Nodes[0].Html}")));
        }
    }
}
