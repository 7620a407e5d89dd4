using System.Collections.Concurrent;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Two tabs of one browser share one store and one queue.</summary>
[Collection(ServedAppGroup.Name)]
public sealed class TwoTabsTests(ServedApp app)
{
    [Fact]
    public async Task Two_tabs_show_the_same_one_of_them_talks_and_the_other_takes_over()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Hazel Thimble" });
        IPage first = await app.SignedInAsync(), second = await first.Context.NewPageAsync();
        await OwnerPage.OpenAsync(first, app, owner, "Hazel Thimble");
        await OwnerPage.OpenAsync(second, app, owner, "Hazel Thimble");
        ConcurrentQueue<IPage> talked = [];
        foreach (IPage page in (IPage[])[first, second])
        {
            page.Request += (_, request) =>
            {
                if (request.Url.EndsWith("/api/changes", StringComparison.Ordinal))
                {
                    talked.Enqueue(page);
                }
            };
        }

        app.Kill();
        await OwnerPage.RenameAsync(first, "Hazel Otter");
        await Expect(second.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Hazel Otter");
        await OwnerPage.CallAsync(second, "0123 456");
        await Expect(first.GetByLabel("Telephone")).ToHaveValueAsync("0123 456");
        await OwnerPage.RenameAsync(second, "Hazel Bramble");
        await OwnerPage.RenameAsync(first, "Hazel Sorrel");
        foreach (IPage page in (IPage[])[first, second])
        {
            await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Hazel Sorrel");
            await Expect(OwnerPage.Status(page)).ToContainTextAsync("4 changes saved here");
        }

        await app.StartAsync();
        await OwnerPage.LookAsync(second);
        await OwnerPage.AllArrivedAsync(first);
        await OwnerPage.AllArrivedAsync(second);
        Assert.Equal(["Hazel Thimble", "Hazel Otter", "Hazel Bramble", "Hazel Sorrel"], await app.HistoryAsync(owner, "name"));
        Assert.Equal(["0123 456"], await app.HistoryAsync(owner, "phone"));
        IPage talker = Assert.Single(talked.Distinct()), other = talker == first ? second : first;

        await talker.CloseAsync();
        await OwnerPage.RenameAsync(other, "Hazel Sedge");
        await OwnerPage.AllArrivedAsync(other);
        Assert.Equal("Hazel Sedge", (await app.HistoryAsync(owner, "name"))[^1]);
        Assert.Equal(2, talked.Distinct().Count());
        await other.Context.CloseAsync();
    }
}
