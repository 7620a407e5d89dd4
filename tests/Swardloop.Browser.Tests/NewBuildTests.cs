using System.Text.Json;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>A new build of the program, and a store as an older build left it.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed class NewBuildTests(ServedApp app)
{
    [Fact]
    public async Task Old_tabs_keep_their_build_until_told_then_all_change_at_once_and_nothing_is_lost()
    {
        Guid owner = await app.AddAsync("owner", new { name = "Sorrel Otter" });
        IPage first = await app.SignedInAsync(), second = await first.Context.NewPageAsync();
        await OwnerPage.ServedByWorkerAsync(first);
        await OwnerPage.OpenAsync(first, app, owner, "Sorrel Otter");
        await OwnerPage.OpenAsync(second, app, owner, "Sorrel Otter");

        // Nothing of this device arrives before the change of builds.
        app.Kill();
        await first.Context.RouteAsync("**/api/changes", route => route.AbortAsync());
        await OwnerPage.RenameAsync(first, "Sorrel Sedge");
        await app.StartAsync(app.Build.Next("second"));
        await first.EvaluateAsync("navigator.serviceWorker.getRegistration().then(registration => registration.update())");
        foreach (IPage page in (IPage[])[first, second])
        {
            await Expect(page.GetByText("A new version is ready")).ToBeVisibleAsync();
        }

        IPage third = await first.Context.NewPageAsync();
        await OwnerPage.OpenAsync(third, app, owner, "Sorrel Sedge");
        foreach (IPage page in (IPage[])[first, second, third])
        {
            Assert.Equal((null, "first"), await BuildsAsync(page));
        }

        await second.GetByLabel("Telephone").FillAsync("0123 789"); // and not left
        await second.GetByLabel("Telephone").FocusAsync();
        await first.GetByRole(AriaRole.Button, new() { Name = "Change to it now" }).ClickAsync();
        foreach (IPage page in (IPage[])[first, second, third])
        {
            await OwnerPage.UntilAsync(page, "globalThis.swardloopBuild === 'second'");
            await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Sorrel Sedge");
            await Expect(page.GetByLabel("Telephone")).ToHaveValueAsync("0123 789");
            await Expect(page.GetByText("A new version is ready")).ToHaveCountAsync(0);
            Assert.Equal(("second", "second"), await BuildsAsync(page));
        }

        await first.Context.UnrouteAsync("**/api/changes");
        await OwnerPage.LookAsync(first);
        await OwnerPage.AllArrivedAsync(first);
        Assert.Equal(["Sorrel Otter", "Sorrel Sedge"], await app.HistoryAsync(owner, "name"));
        Assert.Equal(["0123 789"], await app.HistoryAsync(owner, "phone"));
        await first.Context.CloseAsync();
        app.Kill();
        await app.StartAsync();
    }

    [Fact]
    public async Task Unsent_answers_in_a_store_of_the_version_before_are_carried_along_and_arrive_once()
    {
        IPage page = await app.DeviceAsync();
        await app.SignInAsync(page.Context);
        string workshop = (await app.GetAsync("api/me")).GetProperty("workshop").GetGuid().ToString("N");
        Guid owner = Guid.CreateVersion7(), change = Guid.CreateVersion7();

        // As the first version wrote it: three stores, rows of JSON.
        string waiting = $$"""
            {"change":{"id":"{{change}}","kind":"owner","record":"{{owner}}","set":{"name":"Teasel Otter"},"seen":{},"madeAt":"2026-05-14T09:30:00+02:00"},
             "by":"Robin Thimble","email":"{{ServedApp.Email}}","refusal":null}
            """;
        await page.GotoAsync($"{app.Root}/icon.svg");
        await page.EvaluateAsync(
            """
            ({ name, id, row }) => new Promise((done, failed) => {
                const opening = indexedDB.open(name, 1);
                opening.onupgradeneeded = () => ["records", "waiting", "kept"].forEach(store => opening.result.createObjectStore(store));
                opening.onsuccess = () => {
                    const writing = opening.result.transaction("waiting", "readwrite");
                    writing.objectStore("waiting").put(row, id);
                    writing.oncomplete = () => { opening.result.close(); done(); };
                    writing.onabort = () => failed(writing.error);
                };
            })
            """,
            new { name = $"swardloop-{workshop}", id = change.ToString(), row = waiting });

        await OwnerPage.OpenAsync(page, app, owner, "Teasel Otter");
        await OwnerPage.AllArrivedAsync(page);

        Assert.Equal(["Teasel Otter"], await app.HistoryAsync(owner, "name"));
        JsonElement store = await page.EvaluateAsync<JsonElement>(
            """
            name => new Promise((done, failed) => {
                const opening = indexedDB.open(name);
                opening.onsuccess = () => {
                    const reading = opening.result.transaction("waiting").objectStore("waiting").count();
                    reading.onsuccess = () => { opening.result.close(); done({ version: opening.result.version, waiting: reading.result }); };
                };
                opening.onerror = () => failed(opening.error);
            })
            """,
            $"swardloop-{workshop}");
        Assert.True(store.GetProperty("version").GetInt32() > 1);
        Assert.Equal(0, store.GetProperty("waiting").GetInt32());
        await page.Context.CloseAsync();
    }

    // The build of the page's script, and that of a file fetched only now.
    private static async Task<(string? Script, string? Style)> BuildsAsync(IPage page)
    {
        JsonElement builds = await page.EvaluateAsync<JsonElement>(
            "async () => [globalThis.swardloopBuild ?? null, (await (await fetch('swardloop.css')).text()).includes('/* second */') ? 'second' : 'first']");
        return (builds[0].GetString(), builds[1].GetString());
    }
}
