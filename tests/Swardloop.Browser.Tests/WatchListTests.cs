using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>The watch list from the bench: which yard is lost next, one touch for a visit in spring and back, and the same on the yard's page.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class WatchListTests(ServedApp app)
{
    private const string LongName = "Long-Meadow-under-the-Old-Observatory of the Ottersbrook Allotment Association";

    [Fact]
    public async Task A_yard_is_found_on_the_list_looked_at_in_spring_taken_back_and_told_on_its_own_page()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "thimble-court.yard.json"), TestContext.Current.CancellationToken);
        Guid owner = await app.AddAsync("owner", new { name = "Persephone Abernathy-Quillfeather", email = "p@example.org" });
        Guid failing = await app.AddAsync("yard", new { name = LongName, owner, address = "117 Upper Observatory Terrace, Otterwick", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid fresh = await app.AddAsync("yard", new { name = "Vetch Piece", owner, file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        for (int year = 0; year < 7; year++)
        {
            // The fifth was misread.
            double ohms = year == 4 ? 90 : 8 + (4 * year);
            string[] conditions = year % 3 == 1 ? ["wet"] : [];
            await app.AddAsync("observation", new { yard = failing, reading = new { test = "loop-resistance", ohms, leadOhms = 0.2, at = $"{2019 + year}-05-14T10:00:00+02:00", conditions } });
        }

        List<string> found = [];
        IPage page = await app.SignedInAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Watch list" })).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("l");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Watch list");
        ILocator row = page.Locator("tr").Filter(new() { HasTextString = LongName }), never = page.Locator("tr").Filter(new() { HasTextString = "Vetch Piece" });
        await Expect(row).ToContainTextAsync("6 of 7 readings");
        await Expect(row).ToContainTextAsync("a reading does not fit");
        await Expect(row).ToContainTextAsync(new System.Text.RegularExpressions.Regex("about [A-Z][a-z]{2} 20|lost already|hardly before|not within"));
        await Expect(never).ToContainTextAsync("never measured");
        found.AddRange(await page.ViolationsEverywhereAsync("watch list"));

        // One touch, and back: the visit is made and put away again.
        ILocator touch = page.GetByRole(AriaRole.Button, new() { Name = $"Look at {LongName} in spring" });
        await touch.ClickAsync();
        await Expect(row).ToContainTextAsync("Visit ");
        await Expect(touch).ToHaveCountAsync(0);
        await page.Locator(".undo-offer").GetByRole(AriaRole.Button).ClickAsync();
        await Expect(touch).ToBeVisibleAsync();
        await touch.ClickAsync();
        await Expect(row).ToContainTextAsync("Visit ");
        await OwnerPage.AllArrivedAsync(page);
        JsonElement[] listed = [.. (await app.GetAsync("api/watch?limit=200")).GetProperty("entries").EnumerateArray()];
        Assert.Matches("^20..-03-", listed.Single(entry => entry.GetProperty("yard").GetGuid() == failing).GetProperty("visitOn").GetString()!);

        await page.GetByLabel("Order").SelectOptionAsync("five-percent");
        await Expect(row).ToBeVisibleAsync();
        await row.GetByRole(AriaRole.Link).ClickAsync();
        ILocator card = page.Locator("[aria-labelledby=outlook]");
        await Expect(card.Locator("svg .point")).ToHaveCountAsync(7);
        await Expect(card.Locator("svg .hollow")).ToHaveCountAsync(1);
        await Expect(card).ToContainTextAsync("differs from the others by more than meter, temperature and weather allow");
        await Expect(card.Locator(".tag")).ToContainTextAsync("Visit ");
        await card.Locator("summary").ClickAsync();
        await Expect(card.Locator("tbody tr")).ToHaveCountAsync(7);
        found.AddRange(await page.ViolationsEverywhereAsync("yard outlook"));

        await page.GotoAsync($"{app.Root}/yard/{fresh}");
        await Expect(card).ToContainTextAsync("Never measured.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Look at it in spring" }).ClickAsync();
        await Expect(card.Locator(".tag")).ToContainTextAsync("Visit ");

        // In German, and without reception.
        await page.EvaluateAsync("localStorage.setItem('language', 'de')");
        await page.GotoAsync($"{app.Root}/watch");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Vorschau");
        await Expect(row).ToContainTextAsync("6 von 7 Messwerten");
        found.AddRange(await page.ViolationsEverywhereAsync("watch list in German"));
        await OwnerPage.ServedByWorkerAsync(page);
        await page.Context.SetOfflineAsync(true);
        await page.EvaluateAsync("Blazor.navigateTo('')");
        await page.EvaluateAsync("Blazor.navigateTo('watch')");
        await Expect(page.GetByText("Die Vorschau wird in der Werkstatt gerechnet")).ToBeVisibleAsync();
        await page.Context.SetOfflineAsync(false);
        await page.GetByRole(AriaRole.Button, new() { Name = "Noch einmal versuchen" }).ClickAsync();
        await Expect(row).ToBeVisibleAsync();
        Assert.True(found.Count == 0, string.Join('\n', found));
    }
}
