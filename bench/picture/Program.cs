using System.Globalization;
using System.Text.Json;
using Microsoft.Playwright;

// Times the published app in chromium: the first useful picture, cold and warm, the slider of extra ohms, and an owner's page on a slow phone.
//   args: address of the demo workshop, "first-picture", "slider" or "owner-page"
string root = args[0];
using IPlaywright playwright = await Playwright.CreateAsync();
await using IBrowser browser = await playwright.Chromium.LaunchAsync(new()
{
    ExecutablePath = "/usr/bin/chromium",
    Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
});
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
await (args[1] switch { "slider" => SliderAsync(), "owner-page" => OwnerPageAsync(), _ => FirstPictureAsync() });

// Cold: a browser that was never here. Warm: the same browser again, everything of the first visit still there.
async Task FirstPictureAsync()
{
    const int Visits = 3;
    string yard = await AnyYardAsync();
    Console.WriteLine("From the start of the navigation, in seconds: median of three (all three). Transferred: what the page fetched until then, as it went over the wire.");
    Console.WriteLine();
    Console.WriteLine($"{"",-34}{"cold",-30}{"transferred",-14}{"warm",-30}transferred");
    foreach ((string what, string path, string sign) in (IEnumerable<(string, string, string)>)
    [
        ("page shows it is starting", "", ".starting"),
        ("bench with its cases", "", "[aria-labelledby=open-cases] a.line"),
        ("yard drawn, without signal", yard, ".sw-plan .sw-wire"),
        ("yard with its signal picture", yard, ".sw-heard"),
    ])
    {
        List<(double Seconds, double Bytes)> cold = [], warm = [];
        for (int visit = 0; visit < Visits; visit++)
        {
            await using IBrowserContext device = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
            device.SetDefaultTimeout(300_000);
            IPage page = await device.NewPageAsync();
            cold.Add(await VisitAsync(page, path, sign));

            // The service worker has fetched the whole build before the second visit, as it has on any second day.
            await page.EvaluateAsync("() => navigator.serviceWorker.ready.then(worker => new Promise(done => { const look = () => worker.active?.state === 'activated' ? done() : setTimeout(look, 50); look(); }))");
            await page.Locator(".saved-button", new() { HasText = "All at the workshop" }).WaitForAsync();
            await page.GotoAsync("about:blank");
            warm.Add(await VisitAsync(page, path, sign));
        }

        Console.WriteLine($"{what,-34}{Times(cold),-30}{Size(cold),-14}{Times(warm),-30}{Size(warm)}");
    }
}

async Task<(double Seconds, double Bytes)> VisitAsync(IPage page, string path, string sign)
{
    await page.AddInitScriptAsync($$"""
        (() => {
            const look = () => {
                const found = document.querySelector({{JsonSerializer.Serialize(sign)}});
                if (!found) { requestAnimationFrame(look); return; }
                requestAnimationFrame(() => setTimeout(() => {
                    const all = [...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")];
                    globalThis.seen = [performance.now() / 1000, all.reduce((sum, entry) => sum + entry.transferSize, 0)];
                }));
            };
            performance.setResourceTimingBufferSize(2000);
            look();
        })()
        """);
    await page.GotoAsync($"{root}/{path}", new() { WaitUntil = WaitUntilState.Commit });
    IJSHandle seen = await page.WaitForFunctionAsync("() => globalThis.seen");
    double[] numbers = await seen.JsonValueAsync<double[]>();
    return (numbers[0], numbers[1]);
}

// Each frame another value; busy is from the frame's beginning until style, layout and paint are done, the handler in C# and the drawing included.
async Task SliderAsync()
{
    string yard = await AnyYardAsync();
    Console.WriteLine("One step of the slider each frame, 240 frames after 60 to warm up; milliseconds: median, 95th of a hundred, worst.");
    Console.WriteLine();
    Console.WriteLine($"{"",-26}{"canvas",-14}{"busy in a frame",-22}{"of it C#",-22}{"from frame to frame",-22}frames over 16 ms");
    foreach ((string device, int width, int height, float scale) in (IEnumerable<(string, int, int, float)>)[("desk, 1440 × 900", 1440, 900, 1), ("phone, 390 × 844, ×2", 390, 844, 2)])
    {
        await using IBrowserContext context = await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, DeviceScaleFactor = scale });
        context.SetDefaultTimeout(300_000);
        IPage page = await context.NewPageAsync();
        await page.GotoAsync($"{root}/{yard}");
        await page.Locator(".sw-heard").WaitForAsync();
        await page.Locator(".saved-button", new() { HasText = "All at the workshop" }).WaitForAsync();
        await page.Locator(".sw-slider").ScrollIntoViewIfNeededAsync();
        JsonElement seen = await page.EvaluateAsync<JsonElement>("""
            async () => {
                const slider = document.querySelector(".sw-slider"), canvas = document.querySelector(".sw-canvas");
                const busy = [], own = [], gap = [];
                let last = 0;
                for (let frame = 0; frame < 300; frame++) {
                    await new Promise(done => requestAnimationFrame(() => {
                        const start = performance.now();
                        slider.value = 500 + 450 * Math.sin(frame / 20);
                        slider.dispatchEvent(new Event("input", { bubbles: true }));
                        const handled = performance.now();
                        const channel = new MessageChannel();
                        channel.port1.onmessage = () => {
                            if (frame >= 60) { busy.push(performance.now() - start); own.push(handled - start); gap.push(start - last); }
                            last = start;
                            done();
                        };
                        channel.port2.postMessage(0);
                    }));
                }
                return { busy, own, gap, canvas: `${canvas.width} × ${canvas.height}` };
            }
            """);
        double[] busy = Sorted("busy"), own = Sorted("own"), gap = Sorted("gap");
        Console.WriteLine($"{device,-26}{seen.GetProperty("canvas").GetString(),-14}{Three(busy),-22}{Three(own),-22}{Three(gap),-22}{busy.Count(each => each > 16)} of {busy.Length}");

        double[] Sorted(string name) => [.. seen.GetProperty(name).EnumerateArray().Select(each => each.GetDouble()).Order()];
    }
}

// A link from a case, opened on a phone that was never here; answerable is when the first field or button of an answer is on the screen.
async Task OwnerPageAsync()
{
    const int Visits = 5;
    await using IBrowserContext desk = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 1440, Height = 900 } });
    desk.SetDefaultTimeout(300_000);
    IPage bench = await desk.NewPageAsync();
    await bench.GotoAsync(root);
    await bench.Locator("[aria-labelledby=open-cases] a.line").First.ClickAsync();
    await bench.GetByRole(AriaRole.Button, new() { Name = "Ask the owner" }).ClickAsync();
    await bench.Locator("dialog[open] button[type=submit]").ClickAsync();
    string link = (await bench.Locator("dialog[open] a.button").GetAttributeAsync("href"))!;
    await bench.Locator(".saved-button", new() { HasText = "All at the workshop" }).WaitForAsync();

    Console.WriteLine($"From the start of the navigation until the first answer can be given, in seconds: median of {Visits} (all); transferred: everything until then.");
    Console.WriteLine();
    foreach (int slower in (IEnumerable<int>)[1, 6, 20])
    {
        List<(double Seconds, double Bytes)> seen = [];
        for (int visit = 0; visit < Visits; visit++)
        {
            await using IBrowserContext phone = await browser.NewContextAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true });
            IPage page = await phone.NewPageAsync();
            ICDPSession session = await phone.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = slower });
            await page.GotoAsync(link, new() { WaitUntil = WaitUntilState.Load });
            JsonElement times = await page.EvaluateAsync<JsonElement>("""
                () => new Promise(done => requestAnimationFrame(() => setTimeout(() => {
                    const all = [...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")];
                    done({ seconds: performance.now() / 1000, bytes: all.reduce((sum, entry) => sum + entry.transferSize, 0),
                           answers: document.querySelectorAll("form input:not([type=hidden]), form button").length });
                })))
                """);
            if (times.GetProperty("answers").GetInt32() == 0)
            {
                throw new InvalidOperationException("The owner's page has nothing to answer.");
            }

            seen.Add((times.GetProperty("seconds").GetDouble(), times.GetProperty("bytes").GetDouble()));
        }

        string how = slower == 1 ? "this processor" : $"slowed {slower} times";
        Console.WriteLine($"{how,-20}{Times(seen),-44}{Size(seen)}");
    }
}

async Task<string> AnyYardAsync()
{
    await using IBrowserContext device = await browser.NewContextAsync();
    device.SetDefaultTimeout(300_000);
    IPage page = await device.NewPageAsync();
    await page.GotoAsync($"{root}/yards");
    return (await page.Locator("main a.line").First.GetAttributeAsync("href"))!;
}

static string Three(double[] sorted) => $"{sorted[sorted.Length / 2]:0.0}, {sorted[sorted.Length * 95 / 100]:0.0}, {sorted[^1]:0.0}";

static string Times(List<(double Seconds, double Bytes)> visits)
{
    double[] seconds = [.. visits.Select(visit => visit.Seconds)];
    return $"{seconds.Order().ElementAt(seconds.Length / 2):0.00} ({string.Join(", ", seconds.Select(each => each.ToString("0.00", CultureInfo.InvariantCulture)))})";
}

static string Size(List<(double Seconds, double Bytes)> visits) => $"{visits.Select(visit => visit.Bytes).Order().ElementAt(visits.Count / 2) / 1e6:0.000} MB";
