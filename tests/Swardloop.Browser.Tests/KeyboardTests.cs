using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>The desk's way by keyboard alone: no pointer, no click; wherever the focus stops, it is seen.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class KeyboardTests(ServedApp app)
{
    private const int MostStops = 150;

    [Fact]
    public async Task Desk_goes_from_the_bench_to_a_closed_case_without_a_mouse()
    {
        IPage page = await app.DeviceAsync();
        ILocator dialog = page.Locator("dialog[open]");
        await page.GotoAsync(await app.DemoAsync());
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");

        // Past the frame's links by the first one, then down the list to a mended mower that nobody has seen running.
        await page.Keyboard.PressAsync("Tab");
        await FocusIsOnAsync(page, "a.skip");
        await page.Keyboard.PressAsync("Enter");
        await FocusIsOnAsync(page, "main");
        string wanted = await page.Locator("a.line", new() { HasText = "stops half way down again" }).First.GetAttributeAsync("href") ?? "";
        await WalkAsync(page, $"a[href='{wanted}']");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToContainTextAsync("half way down");
        await FocusIsOnAsync(page, "main");
        await SettledAsync(page);

        // A reading, its kind chosen by the arrows; Enter sends the form.
        int known = await page.Locator(".known > li").CountAsync();
        await page.Keyboard.PressAsync("r");
        await FocusIsOnAsync(page, "dialog[open] select");
        await page.Keyboard.PressAsync("ArrowDown");
        await Expect(dialog.Locator("select").First).Not.ToHaveValueAsync("loop-resistance");
        await page.Keyboard.PressAsync("ArrowUp");
        await Expect(dialog.Locator("select").First).ToHaveValueAsync("loop-resistance");
        await WalkAsync(page, "dialog[open] input[inputmode=decimal]");
        await page.Keyboard.TypeAsync("5.3");
        await page.Keyboard.PressAsync("Enter");
        await Expect(dialog).ToHaveCountAsync(0);
        await Expect(page.Locator(".known > li")).ToHaveCountAsync(known + 1);
        await SettledAsync(page);

        // The advice: see it running. Its cautions are ticked, its result is recorded.
        await Expect(page.Locator(".step h3").First).ToContainTextAsync("mower", new() { IgnoreCase = true });
        while (await page.Locator(".cautions input:not(:checked)").CountAsync() > 0)
        {
            await WalkAsync(page, ".cautions input:not(:checked)");
            await page.Keyboard.PressAsync("Space");
        }

        await WalkAsync(page, ".step button.main");
        await page.Keyboard.PressAsync("Enter");
        await Expect(dialog).ToBeVisibleAsync();
        await WalkAsync(page, "dialog[open] .choices input");
        await page.Keyboard.PressAsync("Space");
        await Expect(dialog.GetByLabel("Yes, it runs")).ToBeCheckedAsync();
        await WalkAsync(page, "dialog[open] button[type=submit]");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByRole(AriaRole.Paragraph).Filter(new() { HasText = "The mower runs. Nothing is left to do." })).ToBeVisibleAsync(); // the sheet for paper says it too
        await Expect(dialog).ToHaveCountAsync(0);

        await WalkAsync(page, ".place-head button.main", back: true);
        await page.Keyboard.PressAsync("Enter");
        await FocusIsOnAsync(page, "dialog[open] select");
        await WalkAsync(page, "dialog[open] button[type=submit]");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");
        await Expect(dialog).ToHaveCountAsync(0);

        // Closed and gone from the bench, found again by a word.
        await Expect(page.Locator("html[data-keys=wait]")).ToHaveCountAsync(0); // keys wait for a pause after a dialog
        await page.Keyboard.PressAsync("b");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await Expect(page.Locator($"[aria-labelledby=open-cases] a[href='{wanted}']")).ToHaveCountAsync(0);
        await page.Keyboard.PressAsync("/");
        await FocusIsOnAsync(page, "dialog[open] input");
        await page.Keyboard.TypeAsync("half way down again");
        await Expect(dialog.Locator("a.line").First).ToHaveAttributeAsync("href", wanted);
        await WalkAsync(page, $"dialog[open] a[href='{wanted}']");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");
    }

    private static async Task SettledAsync(IPage page)
    {
        await Expect(page.GetByText("Working it out")).ToHaveCountAsync(0);
        await Expect(page.Locator(".step, .verdict").First).ToBeVisibleAsync();
    }

    private static Task FocusIsOnAsync(IPage page, string selector) => Expect(page.Locator(selector).First).ToBeFocusedAsync();

    // By Tab from stop to stop, as a person does. Each stop on the way lies in the window, has a size, and shows that it has the focus.
    private static async Task WalkAsync(IPage page, string selector, bool back = false)
    {
        List<string> stops = [];
        for (int i = 0; i < MostStops; i++)
        {
            await page.Keyboard.PressAsync(back ? "Shift+Tab" : "Tab");
            JsonElement stop = await page.EvaluateAsync<JsonElement>("""
                selector => {
                    const at = document.activeElement, box = at.getBoundingClientRect(), style = getComputedStyle(at);
                    const inWindow = box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth;
                    const ring = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
                    const above = document.elementFromPoint(box.left + box.width / 2, Math.min(Math.max(box.top + box.height / 2, 0), innerHeight - 1));
                    const free = !above || at.contains(above) || above.contains(at) || box.height > innerHeight;
                    return { hit: at.matches(selector), onPage: at !== document.body, seen: box.width > 0 && box.height > 0 && inWindow && ring && free,
                             words: `${at.tagName} ${at.className} "${(at.innerText || at.getAttribute("aria-label") || at.id || "").slice(0, 40)}"` };
                }
                """, selector);
            string words = stop.GetProperty("words").GetString()!;
            stops.Add(words);
            Assert.True(stop.GetProperty("seen").GetBoolean() || !stop.GetProperty("onPage").GetBoolean(), $"The focus is not seen on {words}.");
            if (stop.GetProperty("hit").GetBoolean())
            {
                return;
            }
        }

        Assert.Fail($"{selector} was not reached: {string.Join(", ", stops.Distinct())}");
    }
}
