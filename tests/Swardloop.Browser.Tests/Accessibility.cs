using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Swardloop.Browser.Tests;

/// <summary>What axe finds against a page.</summary>
internal static class Accessibility
{
    /// <summary>What axe finds against the page as it is now: one line for each rule broken, with the first thing that breaks it.</summary>
    /// <param name="page">The page.</param>
    /// <param name="place">What the lines name as the place.</param>
    public static async Task<IReadOnlyList<string>> ViolationsAsync(this IPage page, string place)
    {
        AxeResult result = await page.RunAxe();
        return [.. result.Violations.Select(found => $"{place}: {found.Id}, {found.Nodes.Length} times: {found.Nodes[0].Html} {found.Nodes[0].Target}")];
    }

    /// <summary>The same on a desk in light and on a phone in the dark; nothing may stick out to the side. With <c>SWARDLOOP_PICTURES</c> naming a
    /// folder, the pictures go there.</summary>
    public static async Task<IReadOnlyList<string>> ViolationsEverywhereAsync(this IPage page, string place)
    {
        List<string> found = [];
        foreach ((int width, int height, ColorScheme scheme, string device) in (IEnumerable<(int, int, ColorScheme, string)>)
            [(1440, 900, ColorScheme.Light, "desk"), (390, 844, ColorScheme.Dark, "phone")])
        {
            await page.SetViewportSizeAsync(width, height);
            await page.EmulateMediaAsync(new() { ColorScheme = scheme });
            found.AddRange(await page.ViolationsAsync($"{place}, {device}, {scheme}"));
            if (await page.EvaluateAsync<int>("() => document.documentElement.scrollWidth - document.documentElement.clientWidth") is > 0 and int wide)
            {
                found.Add($"{place}, {device}: {wide} px stick out");
            }

            if (Environment.GetEnvironmentVariable("SWARDLOOP_PICTURES") is { Length: > 0 } folder)
            {
                await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{place.Replace(' ', '-')}-{device}-{scheme}.png"), FullPage = true });
                await File.WriteAllLinesAsync(Path.Combine(folder, $"{place.Replace(' ', '-')}.txt"), found);
            }
        }

        await page.SetViewportSizeAsync(1440, 900);
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        return found;
    }
}
