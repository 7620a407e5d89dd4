using System.Globalization;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Devices whose clocks are a day off.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class WrongClockTests(ServedApp app)
{
    private const string ShiftClock =
        """
        const Right = Date;
        globalThis.Date = class extends Right {
            constructor(...given) { given.length > 0 ? super(...given) : super(Right.now() + SHIFT); }
            static now() { return Right.now() + SHIFT; }
        };
        """;

    [Fact]
    public async Task Order_and_once_hold_the_person_is_told_and_no_shown_date_is_in_the_future()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Plantain Otter" });
        IPage fast = await DeviceAsync(86_400_000), slow = await DeviceAsync(-86_400_000);
        await OwnerPage.OpenAsync(fast, app, owner, "Plantain Otter");
        await OwnerPage.OpenAsync(slow, app, owner, "Plantain Otter");
        await Expect(fast.GetByText("The clock of this device is 24 hours fast")).ToBeVisibleAsync();
        await Expect(slow.GetByText("The clock of this device is 24 hours slow")).ToBeVisibleAsync();

        // Started without reception, so that nothing tells the device the time.
        await OwnerPage.ServedByWorkerAsync(fast);
        app.Kill();
        await fast.ReloadAsync();
        await Expect(OwnerPage.Status(fast)).ToContainTextAsync("No connection");
        await OwnerPage.RenameAsync(fast, "Plantain Sedge");
        await OwnerPage.RenameAsync(fast, "Plantain Thimble");
        await app.StartAsync();
        await OwnerPage.LookAsync(fast);
        await OwnerPage.LookAsync(slow);
        await OwnerPage.AllArrivedAsync(fast);
        await Expect(slow.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Plantain Thimble");
        await OwnerPage.RenameAsync(slow, "Plantain Bramble");
        await OwnerPage.AllArrivedAsync(slow);
        await Expect(fast.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Plantain Bramble");
        await OwnerPage.RenameAsync(fast, "Plantain Sorrel");
        await OwnerPage.AllArrivedAsync(fast);

        Assert.Equal(["Plantain Otter", "Plantain Sedge", "Plantain Thimble", "Plantain Bramble", "Plantain Sorrel"], await app.HistoryAsync(owner, "name"));
        await slow.GetByRole(AriaRole.Button, new() { Name = "History" }).ClickAsync();
        ILocator entries = slow.Locator("dialog[open] ol.lines > li > p.quiet");
        await Expect(entries).ToHaveCountAsync(5);
        // The test may run over midnight.
        string[] allowed = [.. new[] { DateTime.Now, DateTime.Now.AddMinutes(-30) }.Select(day => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture))];
        foreach (string shown in await entries.AllInnerTextsAsync())
        {
            Assert.Contains(allowed, day => shown.Contains(day, StringComparison.Ordinal));
        }

        await Expect(slow.GetByText("the device's clock was wrong")).ToHaveCountAsync(2);
        await fast.Context.CloseAsync();
        await slow.Context.CloseAsync();
    }

    private async Task<IPage> DeviceAsync(long shiftMilliseconds)
    {
        IPage page = await app.DeviceAsync();
        await app.SignInAsync(page.Context);
        await page.Context.AddInitScriptAsync(ShiftClock.Replace("SHIFT", shiftMilliseconds.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal));
        await page.GotoAsync(app.Root);
        await OwnerPage.AllArrivedAsync(page);
        return page;
    }
}
