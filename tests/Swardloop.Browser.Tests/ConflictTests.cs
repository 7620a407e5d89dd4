using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Two people set the same field without knowing of each other.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class ConflictTests(ServedApp app)
{
    [Fact]
    public async Task Both_values_are_shown_with_who_and_when_a_person_chooses_and_the_other_stays_in_the_history()
    {
        const string Other = "teasel@swardloop.example";
        Guid owner = await app.AddAsync("owner", new { name = "Fern Otter", phone = "0123 000" });
        await app.SendAsync(HttpMethod.Post, "api/people", new { name = "Teasel Sedge", email = Other, role = "technician", password = "first of all passwords" });
        await app.ChooseOwnPasswordAsync(Other, "first of all passwords");
        IPage desk = await app.SignedInAsync(), garden = await app.SignedInAsync(390, 844, ColorScheme.Dark, Other);
        await OwnerPage.OpenAsync(desk, app, owner, "Fern Otter");
        await OwnerPage.OpenAsync(garden, app, owner, "Fern Otter");

        app.Kill();
        await OwnerPage.CallAsync(desk, "0123 111");
        await OwnerPage.CallAsync(garden, "0123 222");
        await Expect(OwnerPage.Status(desk)).ToContainTextAsync("1 change saved here");
        await Expect(OwnerPage.Status(garden)).ToContainTextAsync("1 change saved here");
        await app.StartAsync();
        await OwnerPage.LookAsync(desk);
        await OwnerPage.LookAsync(garden);

        foreach (IPage page in (IPage[])[desk, garden])
        {
            ILocator both = page.GetByRole(AriaRole.Group, new() { Name = "Two values" });
            await Expect(both.GetByRole(AriaRole.Button)).ToHaveCountAsync(2);
            await Expect(both.GetByRole(AriaRole.Button, new() { Name = "0123 111" })).ToContainTextAsync("Robin Thimble");
            await Expect(both.GetByRole(AriaRole.Button, new() { Name = "0123 222" })).ToContainTextAsync("Teasel Sedge");
            await Expect(both.GetByRole(AriaRole.Button, new() { Name = "0123 222" })).ToContainTextAsync(DateTime.Now.Year.ToString(System.Globalization.CultureInfo.InvariantCulture));
        }

        await desk.GetByRole(AriaRole.Button, new() { Name = "0123 222" }).ClickAsync();
        foreach (IPage page in (IPage[])[desk, garden])
        {
            await Expect(page.GetByRole(AriaRole.Group, new() { Name = "Two values" })).ToHaveCountAsync(0);
            await Expect(page.GetByLabel("Telephone")).ToHaveValueAsync("0123 222");
            await OwnerPage.AllArrivedAsync(page);
        }

        string[] history = await app.HistoryAsync(owner, "phone");
        Assert.Equal(["0123 000", "0123 111", "0123 222", "0123 222"], [history[0], .. history[1..3].Order(), .. history[3..]]);
        await desk.Context.CloseAsync();
        await garden.Context.CloseAsync();
    }
}
