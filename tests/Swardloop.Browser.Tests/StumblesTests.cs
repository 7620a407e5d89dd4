using System.Text;
using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Where people stumbled, walked again: readings as they are said, the way back in the garden, a yard from a file, a server that is away.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class StumblesTests(ServedApp app)
{
    [Fact]
    public async Task Readings_are_taken_as_people_say_them_doubted_struck_out_and_counted_again()
    {
        (Guid yard, Guid @case) = await CaseAsync("Lapwing Fold", onSite: false);
        IPage page = await app.SignedInAsync();
        await page.GotoAsync($"{app.Root}/case/{@case}");
        await Expect(page.Locator(".case-answer")).ToContainTextAsync("Next:"); // the answer first: cause, and the next step
        ILocator dialog = page.Locator("dialog[open]"), add = dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }), ohms = dialog.GetByLabel("The meter shows");
        await page.Keyboard.PressAsync("r");
        await Expect(dialog.GetByLabel("What was done")).ToBeFocusedAsync();
        foreach ((string typed, string echo) in (IEnumerable<(string, string)>)[("96k", "= 96 kΩ"), ("0,096k", "= 96 Ω"), ("1,5M", "= 1.5 MΩ"), ("96 ohm", "= 96 Ω"), ("OL", "= over-range")])
        {
            await ohms.FillAsync(typed);
            await Expect(dialog.Locator(".echo").First).ToContainTextAsync(echo, new() { IgnoreCase = true });
        }

        // A fault goes the moment the value is right, and what can hardly be is asked for once more.
        await ohms.FillAsync("much");
        await add.ClickAsync();
        await Expect(dialog.Locator(".fault").First).ToBeVisibleAsync();
        await ohms.FillAsync("2,8M");
        await Expect(dialog.Locator(".fault")).ToHaveCountAsync(0);
        await add.ClickAsync();
        await Expect(dialog.Locator(".doubt")).ToContainTextAsync("Is that right?");
        await ohms.FillAsync("61");
        await add.ClickAsync();
        await Expect(page.Locator(".known > li")).ToHaveCountAsync(1);

        await page.Locator(".known").GetByRole(AriaRole.Button, new() { Name = "Strike out" }).ClickAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Strike out" }).ClickAsync();
        await Expect(page.Locator(".known > li.gone")).ToHaveCountAsync(1);
        await page.Locator(".known").GetByRole(AriaRole.Button, new() { Name = "Count it again" }).ClickAsync();
        await Expect(page.Locator(".known > li.gone")).ToHaveCountAsync(0);

        // The slider stands where the newest reading puts it, and after a repair nothing older counts.
        await Expect(page.GetByText("Working it out")).ToHaveCountAsync(0);
        await Expect(page.Locator(".sw-ohms input[type=range]")).Not.ToHaveValueAsync("0");
        await app.AddAsync("observation", new { yard, @case, after = (Guid?)null, reading = new { repair = "renew-loop" } });
        await page.GotoAsync($"{app.Root}/yards");
        await Expect(page.Locator("tbody tr").Filter(new() { HasText = "Lapwing Fold" })).Not.ToContainTextAsync("Ω");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Way_back_in_the_garden_keeps_what_was_typed_and_what_was_recorded_is_undone_and_struck_out()
    {
        (Guid yard, Guid @case) = await CaseAsync("Dunlin Reach", onSite: true);
        Guid repaired = await app.AddAsync("observation", new { yard, @case, reading = new { repair = "remake-terminals" } });
        await app.AddAsync("observation", new { yard, @case, after = repaired, reading = new { test = "mower-check", value = "runs" } });
        IPage page = await app.DeviceAsync(390, 844, hasTouch: true);
        await app.SignInAsync(page.Context);
        await page.GotoAsync($"{app.Root}/case/{@case}");
        await page.Locator($"main a[href='case/{@case}/garden']").TapAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the last reading" }).TapAsync();
        await OwnerPage.HeedAsync(page);

        // The first question answered, the second typed: back and forth, by the page's way and by the browser's.
        ILocator shown = page.Locator(".pad-shown"), heading = page.Locator(".pad h2");
        await page.Locator(".garden-hand > .main").TapAsync();
        await KeyAsync("2");
        await page.Locator(".pad-done").TapAsync();
        await Expect(heading).Not.ToContainTextAsync("leads touched");
        await KeyAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Back" }).TapAsync();
        await Expect(shown).ToHaveTextAsync("2 Ω");
        await page.Locator(".pad-done").TapAsync();
        await Expect(shown).ToHaveTextAsync("4 Ω");
        await page.EvaluateAsync("() => history.back()");
        await Expect(shown).ToHaveTextAsync("2 Ω");
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/garden$"));
        await page.Locator(".pad-done").TapAsync();
        await Expect(shown).ToHaveTextAsync("4 Ω");
        await page.Locator(".pad-done").TapAsync();

        // Undone by one touch, then recorded once more, struck out and counted again from the list of all entries.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).TapAsync();
        await Expect(page.Locator(".garden-recorded")).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Take the last reading" }).TapAsync();
        await OwnerPage.HeedAsync(page);

        await page.Locator(".garden-hand > .main").TapAsync();
        await KeyAsync("5");
        await page.Locator(".pad-done").TapAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "All entries" }).TapAsync();
        ILocator dialog = page.Locator("dialog[open]");
        await Expect(dialog.Locator("li.gone")).ToHaveCountAsync(1);
        await dialog.Locator("li:not(.gone)").First.GetByRole(AriaRole.Button, new() { Name = "Strike out" }).TapAsync();
        await Expect(dialog.Locator("li.gone")).ToHaveCountAsync(2);
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Count it again" }).First.TapAsync();
        await Expect(dialog.Locator("li.gone")).ToHaveCountAsync(1);
        await page.Context.CloseAsync();

        Task KeyAsync(string key) => page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new($"^{key}$") }).TapAsync();
    }

    [Fact]
    public async Task Yard_from_a_file_keeps_the_name_that_was_typed_and_lies_where_its_owner_lives()
    {
        const string File =
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"role":"loop","name":"Of the file"},"geometry":{"type":"LineString","coordinates":[[-1.5,52.0],[-1.4997,52.0],[-1.4997,52.0002],[-1.5,52.0002],[-1.5,52.0]]}}]}""";
        Guid owner = await app.AddAsync("owner", new { name = "Wren Sallow", address = "Fen Lane 3, Marsh Hill" });
        IPage page = await app.SignedInAsync();
        await OwnerPage.OpenAsync(page, app, owner, "Wren Sallow");
        await page.GetByRole(AriaRole.Button, new() { Name = "New yard" }).ClickAsync();
        ILocator dialog = page.Locator("dialog[open]");
        await Expect(dialog.Locator("textarea")).ToHaveValueAsync("Fen Lane 3, Marsh Hill");
        await dialog.Locator("form input").First.FillAsync("Sallow Bank");
        await dialog.Locator("input[type=file]").SetInputFilesAsync(new FilePayload { Name = "of-the-file.geojson", MimeType = "application/geo+json", Buffer = Encoding.UTF8.GetBytes(File) });
        await Expect(dialog.GetByText("85.7 m")).ToBeVisibleAsync();
        await Expect(dialog.Locator("form input").First).ToHaveValueAsync("Sallow Bank");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Sallow Bank");
        await Expect(page.Locator(".place-head")).ToContainTextAsync("Wren Sallow · Fen Lane 3, Marsh Hill");
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData("en-GB", "does not answer")]
    [InlineData("de-DE", "antwortet nicht")]
    public async Task Server_that_goes_away_while_the_program_loads_is_said_with_what_to_do(string locale, string words)
    {
        IPage page = await app.DeviceAsync(locale: locale);
        await page.RouteAsync("**/_framework/**", route => route.AbortAsync());
        await page.GotoAsync(app.Root);
        await Expect(page.Locator(".starting p")).ToContainTextAsync(words);
        await page.Context.CloseAsync();
    }

    private async Task<(Guid Yard, Guid Case)> CaseAsync(string name, bool onSite)
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name, file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        return (yard, await app.AddAsync("case", new { yard, state = "open", complaint = "stops in the middle of the lawn", onSite }));
    }
}
