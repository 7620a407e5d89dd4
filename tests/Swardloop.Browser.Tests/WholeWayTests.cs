using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>From an empty workshop to a case closed and found again, in a real browser against the real server.</summary>
[Collection(ServedAppGroup.Name)]
public sealed partial class WholeWayTests(ServedApp app)
{
    [Fact]
    public async Task Desk_goes_from_first_account_to_a_located_fault_and_finds_the_closed_case_again()
    {
        IPage page = await SignedInAsync(1440, 900, ColorScheme.Light);
        await NoViolationsAsync(page, "bench");

        // A new yard by two tape measurements, opened by its key.
        await page.Keyboard.PressAsync("y");
        ILocator dialog = page.Locator("dialog[open]");
        await dialog.GetByLabel("What the yard is called").FillAsync("Thimble Hollow");
        await dialog.GetByLabel("West to east").FillAsync("20");
        await dialog.GetByLabel("South to north").FillAsync("35");
        await NoViolationsAsync(page, "new yard");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Thimble Hollow");
        await Expect(page.GetByText("A healthy loop reads")).ToBeVisibleAsync();
        await NoViolationsAsync(page, "yard");

        await page.GetByRole(AriaRole.Button, new() { Name = "New case" }).ClickAsync();
        await dialog.GetByLabel("What is wrong").FillAsync("stands in the middle of the lawn");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Open the case" }).ClickAsync();
        await Expect(page.Locator(".step")).ToBeVisibleAsync();

        // Readings of a loop that is open near 60 m: nothing round, and the capacitances of the two ends share it out.
        await ObserveAsync(page, "station-lamp", dialog => dialog.GetByLabel("Alarm").CheckAsync());
        await ObserveAsync(page, "loop-resistance", dialog => dialog.GetByLabel("over-range").CheckAsync());
        await ObserveAsync(page, "end-capacitance", async dialog =>
        {
            await dialog.GetByLabel("From end A to the stake").FillAsync("15,0");
            await dialog.GetByLabel("From end B to the stake").FillAsync("11,9");
        });
        await Expect(page.Locator(".where")).ToBeVisibleAsync();
        await Expect(page.Locator(".verdict").First).ToContainTextAsync("broken wire");
        string where = await page.Locator(".where .quiet").InnerTextAsync();
        Assert.InRange(double.Parse(Metres().Match(where).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), 50, 70);
        await NoViolationsAsync(page, "case");

        // Advice is followed: cautions first, then the instructions.
        Assert.Equal(0, await page.Locator(".how").CountAsync());
        foreach (ILocator caution in await page.Locator(".cautions input").AllAsync())
        {
            await caution.CheckAsync();
        }

        await Expect(page.Locator(".how")).ToBeVisibleAsync();
        await ObserveAsync(page, "mend-span", async dialog =>
        {
            await dialog.GetByLabel("Start of the stretch").FillAsync("59");
            await dialog.GetByLabel("End of the stretch").FillAsync("61");
            await dialog.GetByLabel("What was found").FillAsync("cut by a spade");
        });
        await ObserveAsync(page, "mower-check", dialog => dialog.GetByLabel("Yes, it runs").CheckAsync());
        await Expect(page.GetByText("The mower runs. Nothing is left to do.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Close the case" }).ClickAsync();
        await Expect(dialog.GetByLabel("Found at")).ToHaveValueAsync("60");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Close the case" }).ClickAsync();
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");
        await Expect(page.GetByText("All at the workshop")).ToBeVisibleAsync();

        // Found again by a word of the complaint, by keyboard alone.
        await page.Keyboard.PressAsync("b");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await page.Keyboard.PressAsync("/");
        await Expect(dialog).ToBeVisibleAsync();
        await page.Keyboard.TypeAsync("middle");
        await Expect(dialog.Locator("a.line")).ToContainTextAsync("Thimble Hollow");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");

        foreach (string place in (string[])["trade", "workshop", "yards"])
        {
            await page.GotoAsync($"{app.Root}/{place}");
            await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
            await NoViolationsAsync(page, place);
        }
    }

    [Fact]
    public async Task What_is_entered_without_connection_waits_and_arrives_once_though_page_and_server_die()
    {
        IPage page = await SignedInAsync(390, 844, ColorScheme.Dark);
        await NoViolationsAsync(page, "bench, dark, phone");
        app.Kill();

        await AddOwnerAsync(page, "Bramble Otter");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("saved here");
        await app.StartAsync();
        await page.ReloadAsync();
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");

        IPage other = await SignedInAsync(1440, 900, ColorScheme.Dark);
        await other.Keyboard.PressAsync("/");
        await other.Keyboard.TypeAsync("bramble");
        await Expect(other.Locator("dialog[open] a.line")).ToHaveCountAsync(1);
    }

    private static async Task AddOwnerAsync(IPage page, string name)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "New owner" }).ClickAsync();
        await page.Locator("dialog[open]").GetByLabel("Name").FillAsync(name);
        await page.Locator("dialog[open]").GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(name);
    }

    private static async Task ObserveAsync(IPage page, string step, Func<ILocator, Task> fill)
    {
        int before = await page.Locator(".known > li").CountAsync();
        await page.Keyboard.PressAsync("r");
        ILocator dialog = page.Locator("dialog[open]");
        await dialog.GetByLabel("What was done").SelectOptionAsync(step);
        await fill(dialog);
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.Locator(".known > li")).ToHaveCountAsync(before + 1);
        await Expect(dialog).ToHaveCountAsync(0);
        await Expect(page.GetByText("Working it out")).ToHaveCountAsync(0);
    }

    private static async Task NoViolationsAsync(IPage page, string place)
    {
        AxeResult result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, $"{place}: " + string.Join("; ", result.Violations.Select(found => $"{found.Id}: {found.Nodes[0].Html}")));
    }

    private async Task<IPage> SignedInAsync(int width, int height, ColorScheme scheme)
    {
        IPage page = await app.DeviceAsync(width, height, scheme);
        await page.GotoAsync(app.Root);
        await Expect(page.Locator(".gate form")).ToBeVisibleAsync();
        await NoViolationsAsync(page, "sign-in");
        if (await page.Locator("#code").CountAsync() > 0)
        {
            await page.GetByLabel("One-time code").FillAsync(app.Code!);
            await page.GetByLabel("Your name").FillAsync("Robin Thimble");
        }

        await page.GetByLabel("E-mail").FillAsync(ServedApp.Email);
        await page.GetByLabel("Password").FillAsync(ServedApp.Password);
        await page.Locator(".gate form button").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");
        return page;
    }

    [GeneratedRegex(@"^([\d.]+) m")]
    private static partial Regex Metres();
}
