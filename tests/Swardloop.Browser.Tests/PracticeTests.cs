using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>A practice yard from beginning to end, by keyboard on the desk, and what the pages look like.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class PracticeTests(ServedApp app)
{
    [Fact]
    public async Task A_practice_yard_is_begun_asked_given_up_and_told_beside_the_other_ways()
    {
        IPage page = await app.SignedInAsync();
        List<string> found = [];
        await page.Keyboard.PressAsync("p");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Practice yards");
        await Expect(page.Locator("[aria-labelledby=yours] .empty")).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("practice"));

        await page.GetByRole(AriaRole.Button, new() { Name = "Begin", Exact = true }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("form select").First).ToBeVisibleAsync();
        await page.Locator("form select").First.SelectOptionAsync("station-lamp");
        ILocator form = page.Locator("[aria-labelledby=next]");
        await Expect(form.Locator(".price[role=status]")).ToContainTextAsync("min");
        await form.GetByRole(AriaRole.Button, new() { Name = "Do it" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        ILocator spent = page.Locator(".place-head .tag.strong");
        await Expect(page.Locator(".place-head")).ToContainTextAsync("1 step");
        await Expect(spent).Not.ToContainTextAsync("€0 ");

        // A place that is missing is said at its field, and nothing is done.
        await page.Locator("form select").First.SelectOptionAsync("split-resistance");
        await form.GetByRole(AriaRole.Button, new() { Name = "Do it" }).ClickAsync();
        await Expect(form.Locator(".fault").First).ToBeVisibleAsync();
        await form.GetByLabel("Where").FillAsync("10");
        await Expect(form.Locator(".price[role=status]")).ToContainTextAsync("min");
        await form.GetByRole(AriaRole.Button, new() { Name = "Do it" }).ClickAsync();
        await Expect(page.Locator(".place-head")).ToContainTextAsync("2 steps");
        await Expect(page.Locator("svg.sw-plan").First).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("practice yard"));

        // Nothing that was done is lost by opening the page anew; without the server it says so and goes on later.
        await page.ReloadAsync();
        await Expect(page.Locator(".place-head")).ToContainTextAsync("2 steps");
        await OwnerPage.ServedByWorkerAsync(page);
        await page.Context.SetOfflineAsync(true);
        await page.Locator("form select").First.SelectOptionAsync("terminal-look");
        await form.GetByRole(AriaRole.Button, new() { Name = "Do it" }).ClickAsync();
        await Expect(page.GetByText("Practice needs the workshop's server").First).ToBeVisibleAsync();
        await page.Context.SetOfflineAsync(false);
        await form.GetByRole(AriaRole.Button, new() { Name = "Do it" }).ClickAsync();
        await Expect(page.Locator(".place-head")).ToContainTextAsync("3 steps");

        await form.Locator("summary").Filter(new() { HasTextString = "Give up" }).ClickAsync();
        await form.GetByRole(AriaRole.Button, new() { Name = "Give up" }).ClickAsync();
        await Expect(page.Locator("#what-it-was")).ToBeVisibleAsync();
        await Expect(page.Locator("[aria-labelledby=side-by-side] tbody tr")).ToHaveCountAsync(4);
        await Expect(page.Locator("[aria-labelledby=side-by-side] p[role=status]")).ToHaveCountAsync(0);
        await Expect(page.Locator("[aria-labelledby=worth] tbody tr")).ToHaveCountAsync(3);
        await Expect(page.Locator("[aria-labelledby=worth] p[role=status]")).ToHaveCountAsync(0);
        await Expect(page.Locator("[aria-labelledby=worth]")).Not.ToContainTextAsync("…");
        found.AddRange(await page.ViolationsEverywhereAsync("practice ended"));
        await page.GetByRole(AriaRole.Link, new() { Name = "Another practice yard" }).ClickAsync();
        await Expect(page.Locator("[aria-labelledby=yours] tbody tr")).ToHaveCountAsync(1);
        found.AddRange(await page.ViolationsEverywhereAsync("practice list"));
        Assert.True(found.Count == 0, string.Join('\n', found));
    }
}
