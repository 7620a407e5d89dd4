using Microsoft.Playwright;

namespace Swardloop.Browser.Tests;

/// <summary>What does not fit a small old phone whose owner reads large: 360 × 640 with text at 130 %.</summary>
internal static class SmallScreen
{
    /// <summary>Width and height of the phone (px).</summary>
    public const int Width = 360, Height = 640;

    // Bars are what stands still while the rest is moved. Narrow is a column that leaves words one under the other; cut is a text whose letters lie
    // outside of what shows them. What is there for screen readers only is one pixel wide.
    private const string Look =
        """
        async ([highest, narrowest]) => {
            const found = [], name = part => `${part.tagName.toLowerCase()}${part.id ? "#" + part.id : ""}${[...part.classList].map(word => "." + word).join("")} "${part.textContent.trim().slice(0, 40)}"`;
            const forReaders = part => { for (let outer = part; outer; outer = outer.parentElement) if (getComputedStyle(outer).clipPath !== "none") return true; return false; };
            const shown = part => part.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !part.closest(".skip, svg") && !forReaders(part);
            const dialog = document.querySelector("dialog[open]"), all = [...(dialog ?? document.body).querySelectorAll("*")].filter(shown);

            scrollTo(0, document.body.scrollHeight / 3);
            await new Promise(done => requestAnimationFrame(() => setTimeout(done)));
            const bars = all.filter(part => ["fixed", "sticky"].includes(getComputedStyle(part).position) && !part.closest("dialog, .undo-offer")
                && !all.some(outer => outer !== part && outer.contains(part) && ["fixed", "sticky"].includes(getComputedStyle(outer).position)))
                .map(part => part.getBoundingClientRect()).concat([...document.querySelectorAll(".frame .places")].filter(shown).map(part => part.getBoundingClientRect()));
            const taken = new Set();
            for (const bar of bars) for (let y = Math.max(0, Math.round(bar.top)); y < Math.min(innerHeight, Math.round(bar.bottom)); y++) taken.add(y);
            if (!dialog && taken.size > highest * innerHeight) found.push(`bars take ${taken.size} of ${innerHeight} px`);
            scrollTo(0, 0);
            await new Promise(done => requestAnimationFrame(() => setTimeout(done)));

            for (const part of all) {
                const texts = [...part.childNodes].filter(node => node.nodeType === 3 && node.data.trim().length > 0);
                if (texts.length === 0) continue;
                const words = texts.map(node => node.data).join(" ").trim().split(/\s+/), box = part.getBoundingClientRect(), style = getComputedStyle(part);
                const line = parseFloat(style.lineHeight) || 1.3 * parseFloat(style.fontSize);
                if (box.width < narrowest && words.length >= 3 && box.height > 2.5 * line) found.push(`${Math.round(box.width)} px wide: ${name(part)}`);

                // A word broken over two lines without a hyphen is cut.
                for (const node of texts) for (const match of node.data.matchAll(/\p{L}{2,}/gu)) {
                    const range = document.createRange();
                    range.setStart(node, match.index);
                    range.setEnd(node, match.index + match[0].length);
                    const rects = [...range.getClientRects()].filter(rect => rect.width > 0.5);
                    if (rects.length === 0) continue;
                    if (rects.some(rect => rect.top > rects[0].bottom - 1) && style.hyphens !== "auto" && !match[0].includes("\u00ad")) found.push(`"${match[0]}" is broken: ${name(part)}`);
                    for (let outer = part; outer && outer !== document.body; outer = outer.parentElement) {
                        const how = getComputedStyle(outer);
                        if (!/hidden|clip/.test(how.overflowX + how.overflowY)) continue;
                        const edge = outer.getBoundingClientRect();
                        if (rects.some(rect => rect.left < edge.left - 1 || rect.right > edge.right + 1 || rect.top < edge.top - 2 || rect.bottom > edge.bottom + 2)) { found.push(`"${match[0]}" is cut off: ${name(part)}`); break; }
                    }
                    if (rects.some(rect => rect.left < -1 || rect.right > innerWidth + 1) && !part.closest(".wide, .sw-scroll")) found.push(`"${match[0]}" sticks out: ${name(part)}`);
                }
            }
            if (document.documentElement.scrollWidth > document.documentElement.clientWidth) found.push(`${document.documentElement.scrollWidth - document.documentElement.clientWidth} px stick out`);
            return [...new Set(found)];
        }
        """;

    /// <summary>What does not fit, in lines; with <c>SWARDLOOP_PICTURES</c> naming a folder, the pictures go there. The page is as large as before afterwards.</summary>
    /// <param name="page">The page.</param>
    /// <param name="place">What the lines name as the place.</param>
    public static async Task<IReadOnlyList<string>> MisfitsAsync(this IPage page, string place)
    {
        PageViewportSizeResult before = page.ViewportSize!;
        await page.SetViewportSizeAsync(Width, Height);
        await page.EvaluateAsync("() => { document.documentElement.style.fontSize = '130%'; }");
        string[] found = await page.EvaluateAsync<string[]>(Look, new[] { 0.25, 90 });
        if (Environment.GetEnvironmentVariable("SWARDLOOP_PICTURES") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{place.Replace(' ', '-')}-small.png"), FullPage = true });
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{place.Replace(' ', '-')}-small-top.png") });
        }

        await page.EvaluateAsync("() => { document.documentElement.style.fontSize = ''; }");
        await page.SetViewportSizeAsync(before.Width, before.Height);
        return [.. found.Select(line => $"{place}, {Width} x {Height}, 130 %: {line}")];
    }
}
