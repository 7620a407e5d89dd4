using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>From a case to the sheet looked at, signed and kept, and the visit in a calendar.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class SheetsTests(ServedApp app)
{
    [Fact]
    public async Task A_sheet_is_looked_at_signed_on_the_screen_and_kept_and_a_visit_goes_into_a_calendar()
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "thimble-court.yard.json"), TestContext.Current.CancellationToken);
        Guid owner = await app.AddAsync("owner", new { name = "Odo Quillfeather", email = "odo@example.org", language = "de" });
        Guid yard = await app.AddAsync("yard", new { name = "Sheet Corner", owner, file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "open", complaint = "stops halfway across" });
        await app.AddAsync("observation", new { yard, @case, reading = new { test = "loop-resistance", ohms = 60, leadOhms = 0.3 } });
        await app.AddAsync("visit", new { yard, @case, on = DateTime.Now.ToString("yyyy-MM-dd"), at = "09:30" });

        List<string> found = [];
        IPage page = await app.SignedInAsync();
        IDownload calendar = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Button, new() { Name = "For the calendar" }).ClickAsync());
        Assert.Equal("visits.ics", calendar.SuggestedFilename);
        Assert.Contains("SUMMARY:Visit: Sheet Corner", await File.ReadAllTextAsync(await calendar.PathAsync(), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        await page.GotoAsync($"{app.Root}/case/{@case}");
        await page.GetByRole(AriaRole.Button, new() { Name = "Sheets", Exact = true }).ClickAsync();
        ILocator dialog = page.Locator("dialog[open]"), text = dialog.Locator(".sheet-text");
        await Expect(text).ToContainTextAsync("Sheet Corner");
        await dialog.GetByLabel("Acceptance").CheckAsync();
        await Expect(text).ToContainTextAsync("_____");
        ILocator pad = dialog.Locator(".signature");
        await pad.ScrollIntoViewIfNeededAsync();
        LocatorBoundingBoxResult box = (await pad.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(box.X + 40, box.Y + 60);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + 120, box.Y + 20, new() { Steps = 8 });
        await page.Mouse.MoveAsync(box.X + 200, box.Y + 70, new() { Steps = 8 });
        await page.Mouse.UpAsync();
        await Expect(pad.Locator("polyline")).ToHaveCountAsync(1);
        found.AddRange(await page.ViolationsEverywhereAsync("sheets"));
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Accepted" }).ClickAsync();
        await Expect(dialog.GetByText("Accepted by Odo Quillfeather")).ToBeVisibleAsync();
        await OwnerPage.AllArrivedAsync(page);
        await dialog.GetByLabel("What we found").CheckAsync();
        await dialog.GetByLabel("Acceptance").CheckAsync();
        await Expect(text).ToContainTextAsync("Odo Quillfeather, ");
        await Expect(dialog.GetByRole(AriaRole.Link, new() { Name = "Open in the mail program" })).ToHaveAttributeAsync("href", new System.Text.RegularExpressions.Regex("^mailto:odo%40example.org\\?subject=.*Sheet%20Corner"));
        IDownload pdf = await page.RunAndWaitForDownloadAsync(() => dialog.GetByRole(AriaRole.Link, new() { Name = "Save as PDF" }).ClickAsync());
        Assert.Equal("acceptance-sheet-corner.pdf", pdf.SuggestedFilename);
        string kept = await pdf.PathAsync();
        Assert.StartsWith("%PDF-", System.Text.Encoding.Latin1.GetString(await File.ReadAllBytesAsync(kept, TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        IPage sheet = await page.RunAndWaitForPopupAsync(() => dialog.GetByRole(AriaRole.Link, new() { Name = "Web page" }).ClickAsync());
        await Expect(sheet.Locator("svg polyline[points*=',']").Last).ToBeVisibleAsync();
        if (Environment.GetEnvironmentVariable("SWARDLOOP_PICTURES") is { Length: > 0 } folder)
        {
            await sheet.ScreenshotAsync(new() { Path = Path.Combine(folder, "sheet-page.png"), FullPage = true });
            File.Copy(kept, Path.Combine(folder, "acceptance.pdf"), overwrite: true);
        }

        await page.Context.SetOfflineAsync(true);
        await dialog.GetByLabel("Quote").CheckAsync();
        await Expect(dialog.GetByText("Sheets are made at the workshop")).ToBeVisibleAsync();
        await page.Context.SetOfflineAsync(false);
        Assert.True(found.Count == 0, string.Join('\n', found));
    }
}
