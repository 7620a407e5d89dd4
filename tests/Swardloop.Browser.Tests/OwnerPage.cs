using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>What tests do on an owner's page: a few fields, each kept when it is left.</summary>
internal static class OwnerPage
{
    /// <summary>Ticks whatever stands before a step's instructions, by touch or mouse, in the garden for the visit first.</summary>
    public static async Task HeedAsync(IPage page, bool byTouch = true)
    {
        const string Mark = "[...document.querySelectorAll('h1, .cautions')].map(part => part.textContent).join('|') + document.querySelectorAll('.cautions input:not(:checked)').length";
        await UntilAsync(page, "document.querySelector('.cautions input:not(:checked), .how, .garden-asked')");
        while (await page.Locator(".cautions input:not(:checked)").CountAsync() > 0)
        {
            string before = await page.EvaluateAsync<string>($"() => {Mark}");
            ILocator box = page.Locator(".cautions input:not(:checked)").First;
            await (byTouch ? box.TapAsync() : box.ClickAsync());
            await UntilAsync(page, $"{Mark} !== {System.Text.Json.JsonSerializer.Serialize(before)}");
        }
    }

    /// <summary>Ticks in the garden what holds for the whole visit, and waits for the step.</summary>
    public static async Task OpenVisitAsync(IPage page, bool byTouch = true)
    {
        ILocator box = page.Locator(".garden-opening input");
        await (byTouch ? box.TapAsync() : box.ClickAsync());
        await Expect(page.Locator(".garden-rest").First).ToBeVisibleAsync();
    }

    /// <summary>Opens an owner within the running program.</summary>
    public static async Task OpenAsync(IPage page, ServedApp app, Guid owner, string name)
    {
        await page.GotoAsync($"{app.Root}/owner/{owner}");
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(name);
    }

    /// <summary>Types a name and leaves the field; the heading shows it as soon as it is kept.</summary>
    public static async Task RenameAsync(IPage page, string name)
    {
        await page.GetByLabel("Name").FillAsync(name);
        await page.GetByLabel("Name").BlurAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(name);
    }

    /// <summary>Types a telephone number and leaves the field.</summary>
    public static async Task CallAsync(IPage page, string phone)
    {
        await page.GetByLabel("Telephone").FillAsync(phone);
        await page.GetByLabel("Telephone").BlurAsync();
    }

    /// <summary>What is saved where, as every place says it.</summary>
    public static ILocator Status(IPage page) => page.Locator(".saved-button");

    /// <summary>Waits until nothing waits.</summary>
    public static Task AllArrivedAsync(IPage page, string language = "en") => Expect(Status(page)).ToContainTextAsync(language == "de" ? "Alles in der Werkstatt" : "All at the workshop");

    /// <summary>Waits until the service worker serves this page: from then on it loads without a network.</summary>
    public static Task ServedByWorkerAsync(IPage page) => UntilAsync(page, "navigator.serviceWorker.controller !== null");

    /// <summary>Waits until something holds in the page, also over a reload. (The driver's own waiting evaluates text, which our pages forbid.)</summary>
    /// <param name="page">The page.</param>
    /// <param name="condition">An expression in JavaScript.</param>
    public static async Task UntilAsync(IPage page, string condition)
    {
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(ServedApp.Patience));
        while (true)
        {
            try
            {
                await page.EvaluateAsync($"async () => {{ while (!({condition})) await new Promise(done => setTimeout(done, 20)); }}").WaitAsync(patience.Token);
                return;
            }
            catch (PlaywrightException fault) when (fault.Message.Contains("context was destroyed", StringComparison.Ordinal) || fault.Message.Contains("navigat", StringComparison.Ordinal))
            {
                // The page was loaded again.
            }
        }
    }

    /// <summary>Waits until keys of the page work again: after a dialog they wait for a pause, which is as long as the machine makes it.</summary>
    public static Task KeysWorkAsync(IPage page) => UntilAsync(page, "!document.documentElement.dataset.keys");

    /// <summary>Asks the page to look for a connection now, as a person would who knows that it is back.</summary>
    public static async Task LookAsync(IPage page)
    {
        await Status(page).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Look for a connection now" }).ClickAsync();
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.Locator("dialog[open]")).ToHaveCountAsync(0);
    }
}
