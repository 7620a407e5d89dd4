using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>At the desk nothing typed is lost, and nothing happens by accident.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class NothingTypedIsLostTests(ServedApp app)
{
    [Fact]
    public async Task What_is_typed_outlives_another_tab_and_a_reload()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Hazel Thimble" });
        IPage first = await app.SignedInAsync(), second = await first.Context.NewPageAsync();
        await OwnerPage.OpenAsync(first, app, owner, "Hazel Thimble");
        await OwnerPage.OpenAsync(second, app, owner, "Hazel Thimble");

        // A value arrives while the same field is typed in.
        await first.GetByLabel("Telephone").PressSequentiallyAsync("0123 4");
        await OwnerPage.CallAsync(second, "0999");
        ILocator choice = first.Locator(".typed");
        await Expect(choice).ToContainTextAsync("0999");
        await Expect(first.GetByLabel("Telephone")).ToHaveValueAsync("0123 4");
        await first.GetByLabel("Telephone").PressSequentiallyAsync("56");
        await first.GetByRole(AriaRole.Button, new() { Name = "Keep mine" }).ClickAsync();
        await Expect(choice).ToHaveCountAsync(0);
        await Expect(second.GetByLabel("Telephone")).ToHaveValueAsync("0123 456");
        await OwnerPage.AllArrivedAsync(first);
        Assert.Equal(["0999", "0123 456"], await app.HistoryAsync(owner, "phone"));
        await second.CloseAsync();

        // A field and a dialog half typed, and the page loaded again.
        await first.GetByLabel("E-mail").PressSequentiallyAsync("hazel@sw");
        await first.ReloadAsync();
        await Expect(first.GetByLabel("E-mail")).ToHaveValueAsync("hazel@sw");
        await first.GetByRole(AriaRole.Button, new() { Name = "Leave as it is" }).ClickAsync();
        await Expect(first.GetByLabel("E-mail")).ToHaveValueAsync("");
        await first.Keyboard.PressAsync("Escape");
        await first.Locator("h1").ClickAsync();
        await first.Keyboard.PressAsync("o");
        ILocator dialog = first.Locator("dialog[open]");
        await dialog.GetByLabel("Name").PressSequentiallyAsync("Sedge Br");
        await first.ReloadAsync();
        await first.GetByRole(AriaRole.Button, new() { Name = "Go on with it" }).ClickAsync();
        await Expect(dialog.GetByLabel("Name")).ToHaveValueAsync("Sedge Br");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Begin anew" }).ClickAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Close" }).ClickAsync();
        await Expect(first.Locator(".half-filled")).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task Enter_picks_the_yard_typing_on_hits_no_key_and_a_mistake_is_undone()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        await app.AddAsync("yard", new { name = "Teasel Quay", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        IPage page = await app.SignedInAsync();
        ILocator dialog = page.Locator("dialog[open]");

        await page.Keyboard.PressAsync("c");
        await Expect(dialog.GetByLabel("Which yard").First).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("Teasel Q");
        await page.Keyboard.PressAsync("Enter");
        await Expect(dialog.GetByLabel("What is wrong")).ToBeFocusedAsync(); // a person sees the cursor move
        await page.Keyboard.TypeAsync("who stands still at the edge");
        await Expect(dialog.GetByLabel("What is wrong")).ToHaveValueAsync("who stands still at the edge");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Open the case" }).ClickAsync();
        await page.Keyboard.TypeAsync("o who"); // few keys: what was done can be undone for ten seconds only
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Who stands still at the edge");
        await Expect(dialog).ToHaveCountAsync(0);

        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Teasel Quay");
        await Expect(page.Locator("[aria-labelledby=cases] a")).ToHaveCountAsync(0);

        // Later than that it is put away, as long as nothing hangs on it: the case first, then the yard.
        await page.Locator(".place-head button.main").ClickAsync();
        await dialog.GetByLabel("What is wrong").FillAsync("stands still");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Open the case" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Stands still");
        string opened = page.Url;
        await page.Locator(".place-head p a").First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Details" }).ClickAsync();
        await Expect(dialog).ToContainTextAsync("when nothing hangs on it any more. Now there is: Case: 1.");
        await page.Keyboard.PressAsync("Escape");
        await page.GotoAsync(opened);
        await page.GetByRole(AriaRole.Button, new() { Name = "Details" }).ClickAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Put it away" }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Teasel Quay");
        await page.GetByRole(AriaRole.Button, new() { Name = "Details" }).ClickAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Put it away" }).ClickAsync();
        await Expect(page).ToHaveURLAsync(new System.Text.RegularExpressions.Regex("/yards$"));
        await page.Locator(".list-tabs a").Filter(new() { HasTextString = "Put away" }).ClickAsync();
        await page.Locator("tbody tr").Filter(new() { HasText = "Teasel Quay" }).Filter(new() { HasText = "Yard" }).First.GetByRole(AriaRole.Button).ClickAsync();
        await Expect(page.Locator("tbody tr").Filter(new() { HasText = "Teasel Quay" }).Filter(new() { HasNotText = "Case" })).ToHaveCountAsync(0);
    }
}
