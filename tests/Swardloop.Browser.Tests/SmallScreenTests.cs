using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Every place, its dialogs and every screen of the garden in German on a small phone with large text: bars stay under a quarter of the height,
/// no column is narrower than 90 px, no word is cut.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class SmallScreenTests(ServedApp app)
{
    [Fact]
    public async Task Every_place_fits_360_by_640_with_text_at_130_per_cent_in_German()
    {
        string root = await app.DemoAsync();
        IPage page = await app.DeviceAsync(SmallScreen.Width, SmallScreen.Height, locale: "de-DE");
        List<string> found = [];
        await page.GotoAsync(root);
        await Expect(page.Locator("[aria-labelledby=open-cases] a.line")).Not.ToHaveCountAsync(0);
        await LookAsync("Werkbank");
        ILocator dialog = page.Locator("dialog[open]");
        foreach ((string key, string title) in (IEnumerable<(string, string)>)[("/", "Suche"), ("c", "Neuer Fall"), ("y", "Neuer Garten"), ("o", "Neuer Eigentümer"), ("?", "Tasten")])
        {
            await DialogAsync(() => page.Keyboard.PressAsync(key), title);
        }

        await DialogAsync(() => page.Locator(".saved-button").ClickAsync(), "Gesichert");
        await page.Locator("[aria-labelledby=open-cases] a.line").First.ClickAsync();
        await Expect(page.Locator(".step, .verdict").First).ToBeVisibleAsync();
        await Expect(page.Locator(".sw-heard")).ToBeVisibleAsync();
        await LookAsync("Fall");
        await DialogAsync(() => page.Keyboard.PressAsync("r"), "Befund");
        foreach (ILocator button in await page.Locator(".place-head button:not(.print-button)").AllAsync())
        {
            await DialogAsync(() => button.ClickAsync(), await button.InnerTextAsync());
        }

        foreach (string place in (string[])["yards", "cases", "owners", "removed", "trade", "workshop"])
        {
            await page.EvaluateAsync("place => Blazor.navigateTo(place)", place);
            await Expect(page).ToHaveURLAsync(new Regex($"/{place}$"));
            await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
            await LookAsync(place);
            if (place is "owners")
            {
                await page.Locator("main a.line").First.ClickAsync();
                await Expect(page).ToHaveURLAsync(new Regex("/owner/"));
                await LookAsync("Eigentümer");
            }
        }

        await page.EvaluateAsync("() => Blazor.navigateTo('practice')");
        await Expect(page.Locator("[aria-labelledby=yours]")).ToBeVisibleAsync();
        await LookAsync("Übungsgärten");
        await page.GetByRole(AriaRole.Button, new() { Name = "Beginnen", Exact = true }).ClickAsync();
        await Expect(page.Locator("[aria-labelledby=next] form select").First).ToBeVisibleAsync();
        await Expect(page.Locator("[aria-labelledby=next] .price[role=status]")).ToBeVisibleAsync();
        await LookAsync("Übungsgarten");

        await page.EvaluateAsync("() => Blazor.navigateTo('yards')");
        await page.Locator("main a.line").First.ClickAsync();
        await Expect(page.Locator(".sw-heard")).ToBeVisibleAsync();
        await LookAsync("Garten");
        await page.GetByRole(AriaRole.Button, new() { Name = "Zeichnen", Exact = true }).ClickAsync();
        await Expect(page.Locator(".sw-editor")).ToBeVisibleAsync();
        await LookAsync("Zeichenbrett");
        Assert.True(found.Count == 0, string.Join('\n', found.Distinct()));

        async Task LookAsync(string place) => found.AddRange(await page.MisfitsAsync(place));

        async Task DialogAsync(Func<Task> open, string title)
        {
            await OwnerPage.UntilAsync(page, "!document.documentElement.dataset.keys"); // keys wait for a pause after a dialog
            await open();
            await Expect(dialog).ToBeVisibleAsync();
            await LookAsync(title);
            await page.Keyboard.PressAsync("Escape");
            await Expect(dialog).ToHaveCountAsync(0);
        }
    }

    [Fact]
    public async Task Garden_from_cautions_to_the_last_reading_fits_the_same()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name = "Brombeerwehr am Hasenpfad", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "steht am Teich", onSite = true });
        Guid running = await app.AddAsync("case", new { yard, state = "open", complaint = "steht am Teich", onSite = true });
        Guid repaired = await app.AddAsync("observation", new { yard, @case = running, reading = new { repair = "remake-terminals" } });
        await app.AddAsync("observation", new { yard, @case = running, after = repaired, reading = new { test = "mower-check", value = "runs" } });
        IPage page = await app.DeviceAsync(SmallScreen.Width, SmallScreen.Height, hasTouch: true, locale: "de-DE");
        await app.SignInAsync(page.Context);
        await page.GotoAsync($"{app.Root}/case/{@case}/garden");
        List<string> found = [];
        await Expect(page.Locator("#garden-step")).ToBeVisibleAsync();
        await LookAsync("Garten, vor dem Besuch");
        await OwnerPage.OpenVisitAsync(page, byTouch: false);
        await LookAsync("Garten, Vorsicht");
        // What holds for the visit stays in sight in one line.
        foreach (int width in (int[])[390, SmallScreen.Width])
        {
            await page.SetViewportSizeAsync(width, 844);
            Assert.InRange((await page.Locator(".garden-visit summary").BoundingBoxAsync())!.Height, 40, 52); // a second line makes it taller
        }

        await page.SetViewportSizeAsync(SmallScreen.Width, SmallScreen.Height);
        await page.Locator(".garden-rest button").First.ClickAsync();
        await LookAsync("Garten, geht nicht");
        await page.Keyboard.PressAsync("Escape");

        // The loop is measured: its pad is the fullest screen.
        await page.GotoAsync($"{app.Root}/case/{running}/garden");
        await page.Locator(".garden-hand .main").Filter(new() { HasText = "Letzte Messung" }).ClickAsync();
        await OwnerPage.HeedAsync(page, byTouch: false);

        await Expect(page.Locator(".how")).ToBeVisibleAsync();
        await LookAsync("Garten, Anleitung");
        await page.Locator(".garden-hand > .main").ClickAsync();
        await Expect(page.Locator(".pad")).ToBeVisibleAsync();
        await LookAsync("Garten, Messleitungen");
        await page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new("^1$") }).ClickAsync();
        await page.Locator(".pad-done").ClickAsync();
        await Expect(page.Locator(".pad-again")).ToBeVisibleAsync();
        await page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new("^4$") }).ClickAsync();
        await LookAsync("Garten, Ziffern");
        Assert.True(found.Count == 0, string.Join('\n', found.Distinct()));

        async Task LookAsync(string place) => found.AddRange(await page.MisfitsAsync(place));
    }
}
