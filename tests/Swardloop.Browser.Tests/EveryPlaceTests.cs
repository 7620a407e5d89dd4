using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Every place of the app with the demo workshop's data, in both appearances, on a desk and on a phone.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class EveryPlaceTests(ServedApp app)
{
    [Fact]
    public async Task No_place_breaks_a_rule_of_accessibility_or_sticks_out()
    {
        string root = await app.DemoAsync();
        IPage page = await app.DeviceAsync();
        List<string> found = [];
        await page.GotoAsync(root);
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");
        await Expect(page.Locator("[aria-labelledby=open-cases] a.line")).Not.ToHaveCountAsync(0);
        found.AddRange(await page.ViolationsEverywhereAsync("bench"));

        await page.Keyboard.PressAsync("/");
        ILocator dialog = page.Locator("dialog[open]");
        await Expect(dialog.Locator("input").First).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("a");
        await Expect(dialog.Locator("a.line")).Not.ToHaveCountAsync(0);
        found.AddRange(await page.ViolationsEverywhereAsync("search"));
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog).ToHaveCountAsync(0);

        // The case with most known has the fullest pictures.
        await page.Locator("[aria-labelledby=open-cases] a.line").First.ClickAsync();
        await CaseReadyAsync(page);
        found.AddRange(await page.ViolationsEverywhereAsync("case"));
        await OwnerPage.KeysWorkAsync(page);
        await page.Keyboard.PressAsync("r");
        await Expect(dialog).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("observation"));
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog).ToHaveCountAsync(0);

        // On paper a case is one page, and nothing of the frame is on it.
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Expect(page.Locator(".case-sheet svg").First).ToBeVisibleAsync();
        await Expect(page.Locator(".frame")).ToBeHiddenAsync();
        byte[] paper = await page.PdfAsync(new() { Format = "A4", PreferCSSPageSize = true });
        Assert.Single(Regex.Matches(System.Text.Encoding.Latin1.GetString(paper), @"/Type\s*/Page\b(?!s)"));
        if (Environment.GetEnvironmentVariable("SWARDLOOP_PICTURES") is { Length: > 0 } folder)
        {
            await File.WriteAllBytesAsync(Path.Combine(folder, "case.pdf"), paper, TestContext.Current.CancellationToken);
        }

        await page.EmulateMediaAsync(new() { Media = Media.Screen });

        await OwnerPage.KeysWorkAsync(page);
        await page.Keyboard.PressAsync("g");
        await HeadingAsync(page, "Yards");
        foreach (string list in (string[])["Cases", "Owners", "Put away"])
        {
            await page.Locator(".list-tabs a").Filter(new() { HasTextString = list }).ClickAsync();
            await HeadingAsync(page, list);
            found.AddRange(await page.ViolationsEverywhereAsync(list));
        }

        await OwnerPage.KeysWorkAsync(page);
        await page.Keyboard.PressAsync("g");
        await HeadingAsync(page, "Yards");
        found.AddRange(await page.ViolationsEverywhereAsync("yards"));
        await page.Locator("main a.line").First.ClickAsync();
        await Expect(page.Locator(".sw-heard")).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("yard"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Draw", Exact = true }).ClickAsync();
        await Expect(page.Locator(".sw-editor")).ToBeVisibleAsync();
        await page.Locator(".sw-editor").GetByRole(AriaRole.Button, new() { Name = "Wire", Exact = true }).Last.ClickAsync();
        await Expect(page.Locator(".sw-editor table")).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("editor"));

        await page.Locator(".place-head a[href^='owner/']").ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex("/owner/"));
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("owner"));

        await page.Keyboard.PressAsync("t");
        await HeadingAsync(page, "Trade");
        found.AddRange(await page.ViolationsEverywhereAsync("trade"));
        await page.Keyboard.PressAsync("w");
        await HeadingAsync(page, "Workshop");
        found.AddRange(await page.ViolationsEverywhereAsync("workshop"));
        await page.Keyboard.PressAsync("?");
        await Expect(dialog).ToBeVisibleAsync();
        found.AddRange(await page.ViolationsEverywhereAsync("keys"));

        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    [Fact]
    public async Task Neither_sign_in_nor_first_account_breaks_a_rule_of_accessibility_or_sticks_out()
    {
        List<string> found = [];
        foreach ((string place, bool isFirst) in (IEnumerable<(string, bool)>)[("first account", true), ("sign-in", false)])
        {
            IPage page = await app.DeviceAsync();
            await page.RouteAsync("**/api/me", async route =>
            {
                IAPIResponse answer = await route.FetchAsync();
                JsonNode me = JsonNode.Parse(await answer.TextAsync())!;
                me["needsFirstAccount"] = isFirst;
                await route.FulfillAsync(new() { Response = answer, Body = me.ToJsonString() });
            });
            await page.GotoAsync(app.Root);
            await Expect(page.Locator("#code")).ToHaveCountAsync(isFirst ? 1 : 0);
            await page.Locator(".gate form button").ClickAsync();
            await Expect(page.Locator(".gate .fault").First).ToBeVisibleAsync();
            found.AddRange(await page.ViolationsEverywhereAsync(place));
            await page.Context.CloseAsync();
        }

        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    private static Task HeadingAsync(IPage page, string words) => Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(words);

    private static async Task CaseReadyAsync(IPage page)
    {
        await Expect(page.Locator(".step, .verdict").First).ToBeVisibleAsync();
        await Expect(page.Locator(".sw-heard")).ToBeVisibleAsync();
    }
}
