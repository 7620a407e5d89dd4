using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>From an empty workshop to a case closed and found again, in a real browser against the real server.</summary>
public sealed class WholeWayTests(ServedApp app) : IClassFixture<ServedApp>
{
    private const string Email = "robin@swardloop.example", Password = "otters like brambles";

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

        await page.GetByLabel("E-mail").FillAsync(Email);
        await page.GetByLabel("Password").FillAsync(Password);
        await page.Locator(".gate form button").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");
        return page;
    }
}
