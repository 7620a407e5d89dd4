using System.Collections.Concurrent;
using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Power gone in the middle of entering: the browser, all its processes at once, at any moment.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed partial class KilledBrowserTests(ServedApp app, ITestOutputHelper output)
{
    private static readonly int Kills = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 200 : 10;

    // Enters one name after the other, as fast as the page shows each as kept, and tells of each that was shown.
    private const string EnterOn =
        """
        async ({ from }) => {
            const heading = document.querySelector("h1");
            for (let i = from; ; i++) {
                const field = document.querySelector("input[type=text]"), name = `Mallow ${i}`;
                field.value = name;
                field.dispatchEvent(new Event("change", { bubbles: true }));
                while (document.querySelector("h1").textContent !== name) await new Promise(done => setTimeout(done));
                console.log("kept " + i);
            }
        }
        """;

    [Fact]
    public async Task Whatever_was_shown_as_kept_is_there_once_and_in_order_after_any_number_of_kills()
    {
        int seed = int.TryParse(Environment.GetEnvironmentVariable("SWARDLOOP_SEED"), out int given) ? given : Random.Shared.Next();
        output.WriteLine($"SWARDLOOP_SEED={seed}");
        Random random = new(seed);
        Guid owner = await app.AddAsync("owner", new { name = "Mallow 0" });
        string folder = Directory.CreateTempSubdirectory("swardloop-").FullName;
        HashSet<int> shown = [];
        try
        {
            for (int kill = 0; kill < Kills; kill++)
            {
                bool isApart = random.Next(2) == 0, isFirst = kill == 0;
                await using KillableBrowser browser = await KillableBrowser.StartAsync(app.Playwright, folder);
                await app.SignInAsync(browser.Context); // a browser keeps cookies for half a minute before it writes them down
                IPage page = browser.Page;
                await page.GotoAsync($"{app.Root}/owner/{owner}");
                await Expect(page.Locator("h1")).ToContainTextAsync("Mallow");
                await Expect(page.GetByLabel("Name")).ToBeVisibleAsync();
                if (isFirst)
                {
                    await OwnerPage.ServedByWorkerAsync(page);
                }

                int last = int.Parse((await page.Locator("h1").InnerTextAsync())["Mallow ".Length..], CultureInfo.InvariantCulture);
                Assert.True(shown.Count == 0 || last >= shown.Max(), $"Mallow {shown.DefaultIfEmpty().Max()} was shown as kept; after the kill there is Mallow {last}.");
                if (isApart)
                {
                    await browser.Context.SetOfflineAsync(true);
                }

                ConcurrentQueue<int> kept = [];
                int wanted = random.Next(1, 25);
                TaskCompletionSource enough = new(TaskCreationOptions.RunContinuationsAsynchronously);
                page.Console += (_, said) =>
                {
                    if (KeptWord().Match(said.Text) is { Success: true } word)
                    {
                        kept.Enqueue(int.Parse(word.Groups[1].Value, CultureInfo.InvariantCulture));
                        if (kept.Count >= wanted)
                        {
                            enough.TrySetResult();
                        }
                    }
                };
                Task entering = page.EvaluateAsync(EnterOn, new { from = last + 1 });
                await Task.WhenAny(enough.Task, entering);
                Assert.False(entering.IsCompleted, entering.Exception?.Message);
                Thread.SpinWait(random.Next(200_000)); // somewhere between two writes, or within one
                browser.Kill();
                shown.UnionWith(kept);
                try
                {
                    await entering;
                }
                catch (PlaywrightException)
                {
                    // The page is gone.
                }
            }

            await using KillableBrowser after = await KillableBrowser.StartAsync(app.Playwright, folder);
            await app.SignInAsync(after.Context);
            await after.Page.GotoAsync($"{app.Root}/owner/{owner}");
            await OwnerPage.AllArrivedAsync(after.Page);
            int[] arrived = [.. (await app.HistoryAsync(owner, "name")).Select(name => int.Parse(name["Mallow ".Length..], CultureInfo.InvariantCulture))];
            output.WriteLine($"{Kills} kills, {shown.Count} entries shown as kept, {arrived.Length} arrived");
            Assert.Equal(Enumerable.Range(0, arrived.Length), arrived);
            Assert.All(shown, i => Assert.InRange(i, 0, arrived.Length - 1));
            after.Kill();
        }
        finally
        {
            try
            {
                Directory.Delete(folder, recursive: true);
            }
            catch (IOException)
            {
                // A process of the browser outlived it by a moment and wrote once more; the folder is a temporary one.
            }
        }
    }

    [Fact]
    public async Task Writes_ask_for_the_disk_not_for_its_cache()
    {
        IPage page = await app.DeviceAsync();
        await app.SignInAsync(page.Context);
        await page.AddInitScriptAsync(
            """
            globalThis.durabilities = [];
            const begin = IDBDatabase.prototype.transaction;
            IDBDatabase.prototype.transaction = function (...asked) {
                const begun = begin.apply(this, asked);
                if (begun.mode === "readwrite") durabilities.push(begun.durability);
                return begun;
            };
            """);
        await page.GotoAsync(app.Root);
        await OwnerPage.AllArrivedAsync(page);

        string[] durabilities = await page.EvaluateAsync<string[]>("durabilities");
        Assert.NotEmpty(durabilities);
        Assert.All(durabilities, durability => Assert.Equal("strict", durability));
        await page.Context.CloseAsync();
    }

    [GeneratedRegex(@"^kept (\d+)$")]
    private static partial Regex KeptWord();
}
