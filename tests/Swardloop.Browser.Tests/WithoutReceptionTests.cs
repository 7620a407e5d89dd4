using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>A visit where there is no reception: the program itself comes from the device, and so do advice and pictures.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class WithoutReceptionTests(ServedApp app)
{
    [Fact]
    public async Task Whole_visit_without_reception_arrives_once_and_in_order()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "thimble-court.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name = "Bramble Terrace", file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "mower will not leave the station" });
        await app.AddAsync("visit", new { yard, @case, on = DateTime.Now.ToString("yyyy-MM-dd") });

        IPage page = await app.SignedInAsync(390, 844, ColorScheme.Dark);
        await Expect(page.GetByText("mower will not leave the station").First).ToBeVisibleAsync();
        await OwnerPage.ServedByWorkerAsync(page);
        await page.Context.SetOfflineAsync(true);
        app.Kill();

        await page.ReloadAsync();
        await Expect(OwnerPage.Status(page)).ToContainTextAsync("No connection");
        await page.GetByText("mower will not leave the station").First.ClickAsync();
        await Expect(page.Locator(".step")).ToBeVisibleAsync();
        await ObserveAsync(page, "station-lamp", dialog => dialog.GetByLabel("Alarm").CheckAsync());
        await ObserveAsync(page, "loop-resistance", dialog => dialog.GetByLabel("over-range").CheckAsync());

        await page.ReloadAsync();
        await Expect(page.Locator(".known > li")).ToHaveCountAsync(2);
        await ObserveAsync(page, "end-capacitance", async dialog =>
        {
            await dialog.GetByLabel("From end A to the stake").FillAsync("9,0");
            await dialog.GetByLabel("From end B to the stake").FillAsync("5,1");
        });
        await Expect(page.Locator(".verdict").First).ToContainTextAsync("broken wire");
        await Expect(page.Locator(".where")).ToBeVisibleAsync();
        await Expect(page.Locator(".sw-strip-drawing").First).ToBeVisibleAsync();
        await Expect(page.Locator("svg.sw-plan").First).ToBeVisibleAsync();
        // Its shades are computed by the engine: dark and light pixels show that they arrived.
        await OwnerPage.UntilAsync(page,
            """
            (() => {
                const canvas = document.querySelector("canvas.sw-canvas");
                if (!canvas || canvas.width === 0) return false;
                const pixels = canvas.getContext("2d").getImageData(0, 0, canvas.width, canvas.height).data;
                const shades = new Set();
                for (let i = 0; i < pixels.length; i += 4) if (pixels[i + 3] > 0) shades.add(pixels[i]);
                return shades.size > 3;
            })()
            """);
        await Expect(OwnerPage.Status(page)).ToContainTextAsync("3 changes saved here");

        await app.StartAsync();
        await page.Context.SetOfflineAsync(false);
        await OwnerPage.AllArrivedAsync(page);

        JsonElement[] observations =
        [
            .. (await app.GetAsync($"api/cases/{@case}/bundle")).GetProperty("records").EnumerateArray()
                .Where(record => record.GetProperty("kind").GetString() == "observation").OrderBy(record => record.GetProperty("version").GetInt64()),
        ];
        List<string?> tests = [];
        foreach (JsonElement observation in observations)
        {
            string reading = Assert.Single(await app.HistoryAsync(observation.GetProperty("id").GetGuid(), "reading"));
            tests.Add(JsonSerializer.Deserialize<JsonElement>(reading).GetProperty("test").GetString());
        }

        Assert.Equal(["station-lamp", "loop-resistance", "end-capacitance"], tests);
        await page.Context.CloseAsync();
    }

    private static async Task ObserveAsync(IPage page, string step, Func<ILocator, Task> fill)
    {
        int before = await page.Locator(".known > li").CountAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Add an observation" }).First.ClickAsync();
        ILocator dialog = page.Locator("dialog[open]");
        await dialog.GetByLabel("What was done").SelectOptionAsync(step);
        await fill(dialog);
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.Locator(".known > li")).ToHaveCountAsync(before + 1);
    }
}
