using System.Globalization;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Swardloop.Drawing.Tests.Browser;

[Collection(OneBrowser.Name)]
public sealed class PictureBrowserTests(BrowserFixture browser, ITestOutputHelper output)
{
    // The share of the canvas that carries exactly the colour of a shade's swatch.
    private const string ShareOfShades = """
        () => {
            const canvas = document.querySelector('canvas'), context = canvas.getContext('2d');
            const shades = [...document.querySelectorAll('[data-shade]')].slice(3).map(swatch => getComputedStyle(swatch).fill.match(/\d+/g).slice(0, 3).join());
            const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
            let shaded = 0, drawn = 0;
            for (let i = 0; i < data.length; i += 4) {
                if (data[i + 3] === 255) { drawn++; if (shades.includes(`${data[i]},${data[i + 1]},${data[i + 2]}`)) { shaded++; } }
            }
            return drawn ? shaded / drawn : -1;
        }
        """;

    [Fact]
    public async Task Slider_makes_the_quiet_part_grow_and_each_frame_is_timed()
    {
        await using OpenPage opened = await browser.Open("picture/marram-reach");
        IPage page = opened.Page;
        await page.WaitForSelectorAsync("input[type=range]");
        await page.WaitForFunctionAsync($"() => ({ShareOfShades})() > 0.9");
        await page.WaitForSelectorAsync(".sw-probes, .sw-facts dd");
        string times = await page.EvaluateAsync<string>("""
            async () => {
                const slider = document.querySelector('input[type=range]'), whole = [];
                for (let i = 0; i <= 60; i++) {
                    slider.value = 200 + i * 8;
                    const start = performance.now();
                    slider.dispatchEvent(new Event('input', { bubbles: true }));
                    const handled = performance.now();
                    await new Promise(requestAnimationFrame);
                    // The canvas drew in this frame's callbacks, before this one.
                    whole.push([handled - start, performance.now() - handled]);
                }
                const sorted = whole.map(([a]) => a).sort((a, b) => a - b);
                return `handling of one step: median ${sorted[30].toFixed(1)} ms, slowest ${sorted[60].toFixed(1)} ms`;
            }
            """);
        output.WriteLine(times);
        double share = await page.EvaluateAsync<double>(ShareOfShades);
        Assert.InRange(share, 0, 0.9);
        Assert.Contains("Reception on", await page.TextContentAsync(".sw-heard"), StringComparison.Ordinal);
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task Strip_and_picture_follow_each_other()
    {
        await using OpenPage opened = await browser.Open("picture/marram-reach");
        IPage page = opened.Page;
        ILocator line = page.Locator(".sw-line");
        await line.ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult box = (await line.BoundingBoxAsync())!;
        await page.Mouse.ClickAsync(box.X + (box.Width / 2), box.Y + 100);
        await page.WaitForSelectorAsync(".sw-plan .sw-chosen");
        double before = double.Parse((await line.GetAttributeAsync("aria-valuenow"))!, CultureInfo.InvariantCulture);
        Assert.InRange(before, 140, 160);
        await line.PressAsync("PageUp");
        await page.WaitForFunctionAsync($"() => document.querySelector('.sw-line').getAttribute('aria-valuenow') == {(before + 5).ToString(CultureInfo.InvariantCulture)}");
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task A_finger_reads_the_signal_and_two_zoom()
    {
        await using OpenPage opened = await browser.Open("picture/thimble-court", phone: true);
        IPage page = opened.Page;
        await page.WaitForSelectorAsync("input[type=range]");
        await page.Locator(".sw-stage").ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult box = (await page.Locator(".sw-stage").BoundingBoxAsync())!;
        (double x, double y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await page.Touchscreen.TapAsync((float)x, (float)y);
        await page.WaitForFunctionAsync("() => document.querySelector('.sw-reading').textContent.includes('dB')");
        string before = (await page.GetAttributeAsync(".sw-plan > g", "transform"))!;
        await Pinch(opened, x, y);
        await page.WaitForFunctionAsync("before => document.querySelector('.sw-plan > g').getAttribute('transform') !== before", before);
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [InlineData("picture/marram-reach", false, false)]
    [InlineData("picture/marram-reach", true, true)]
    [InlineData("editor/sorrel-corner", false, true)]
    [InlineData("editor/sorrel-corner", true, false)]
    public async Task Axe_finds_nothing(string path, bool phone, bool dark)
    {
        await using OpenPage opened = await browser.Open(path, phone, dark);
        await opened.Page.WaitForSelectorAsync(path.StartsWith("picture", StringComparison.Ordinal) ? ".sw-column" : ".sw-parts", new() { State = WaitForSelectorState.Attached });
        if (path.StartsWith("editor", StringComparison.Ordinal))
        {
            await opened.Page.Locator(".sw-parts .sw-button").First.ClickAsync();
            foreach (ILocator more in await opened.Page.Locator("summary").AllAsync())
            {
                await more.ClickAsync();
            }

            await opened.Page.WaitForSelectorAsync("tbody tr");
        }

        AxeResult result = await opened.Page.RunAxe();
        Assert.True(result.Violations.Length == 0, string.Join("\n", result.Violations.Select(violation =>
            $"{violation.Id}: {violation.Help}: {string.Join(" | ", violation.Nodes.Select(node => node.Html))}")));
    }

    internal static async Task Pinch(OpenPage opened, double x, double y)
    {
        ICDPSession session = await opened.Context.NewCDPSessionAsync(opened.Page);
        async Task Touch(string type, params (double X, double Y)[] points) => await session.SendAsync("Input.dispatchTouchEvent", new()
        {
            ["type"] = type,
            ["touchPoints"] = points.Select((point, i) => new { x = point.X, y = point.Y, id = i }).ToArray(),
        });
        await Touch("touchStart", (x - 30, y));
        await Touch("touchStart", (x - 30, y), (x + 30, y));
        for (int i = 1; i <= 6; i++)
        {
            await Touch("touchMove", (x - 30 - (8 * i), y), (x + 30 + (8 * i), y));
        }

        await Touch("touchEnd");
    }
}
