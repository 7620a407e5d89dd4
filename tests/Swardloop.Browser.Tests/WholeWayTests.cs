using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>From an empty workshop to a case closed and found again, in a real browser against the real server.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed partial class WholeWayTests(ServedApp app)
{
    [Theory]
    [InlineData("desk")]
    [InlineData("phone")]
    public async Task Way_from_a_new_yard_to_a_located_joint_and_the_closed_case_found_again(string device)
    {
        bool byTouch = device == "phone";
        IPage page = byTouch ? await SignedInAsync(390, 844, ColorScheme.Dark, byTouch) : await SignedInAsync(1440, 900, ColorScheme.Light, byTouch);
        ILocator dialog = page.Locator("dialog[open]");
        Task PressAsync(ILocator button) => byTouch ? button.TapAsync() : button.ClickAsync();
        ILocator Button(string name) => page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

        // A new yard, drawn from nothing: its wire has six corners, and a joint at 40 m.
        await PressAsync(Button("New yard"));
        await dialog.GetByLabel("What the yard is called").FillAsync("Thimble Hollow");
        await NoViolationsAsync(page, "new yard");
        await PressAsync(dialog.GetByRole(AriaRole.Button, new() { Name = "Draw it" }));
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Thimble Hollow");
        ILocator board = page.Locator(".sw-stage");
        await board.ScrollIntoViewIfNeededAsync();
        await PressAsync(Tool("Wire"));
        foreach ((double east, double north) in (IEnumerable<(double, double)>)[(0, 0), (20, 0), (20, 7), (10, 7), (10, 15), (0, 15), (0, 0)])
        {
            await TouchAsync(east, north);
        }

        await Expect(page.Locator(".sw-totals")).ToContainTextAsync("70 m of wire, 220 m² of lawn");
        await PressAsync(Tool("Joint"));
        await TouchAsync(10, 10);
        await Expect(Button("Joint 1")).ToBeVisibleAsync();
        await NoViolationsAsync(page, "drawing board");
        await Expect(page.GetByText("Kept as it is drawn.")).ToBeVisibleAsync();
        await PressAsync(Button("Done drawing"));
        await Expect(page.GetByText("A healthy loop reads")).ToBeVisibleAsync();
        await Expect(page.Locator("[aria-labelledby=joints] tbody tr")).ToHaveCountAsync(1);
        await Expect(page.Locator("[aria-labelledby=joints] tbody tr").GetByText(new Regex(@"^(39\.[5-9]|40(\.[0-4])?) m$"))).ToBeVisibleAsync(); // as near as a pixel

        await PressAsync(Button("New case"));
        await dialog.GetByLabel("What is wrong").FillAsync($"stands in the middle of the lawn, {device}");
        await PressAsync(dialog.GetByRole(AriaRole.Button, new() { Name = "Open the case" }));
        await Expect(page.Locator(".step")).ToBeVisibleAsync();

        // Readings of a loop that is open at the joint: nothing round, and the capacitances of the two ends share it out.
        await ObserveAsync("station-lamp", form => form.GetByLabel("Alarm").CheckAsync());
        await ObserveAsync("loop-resistance", form => form.GetByLabel("over-range").CheckAsync());
        await ObserveAsync("end-capacitance", async form =>
        {
            await form.GetByLabel("From end A to the stake").FillAsync("9,8");
            await form.GetByLabel("From end B to the stake").FillAsync("7,3");
        });
        await Expect(page.Locator(".verdict").First).ToContainTextAsync("broken wire");
        string where = await page.Locator(".where").InnerTextAsync();
        Assert.InRange(double.Parse(Metres().Match(where).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture), 36, 44);
        Assert.Contains("joint 1", where, StringComparison.OrdinalIgnoreCase);
        await NoViolationsAsync(page, "case");

        // Advice is followed: cautions first, then the instructions.
        Assert.Equal(0, await page.Locator(".how").CountAsync());
        foreach (ILocator caution in await page.Locator(".cautions input").AllAsync())
        {
            await caution.CheckAsync();
        }

        await Expect(page.Locator(".how")).ToBeVisibleAsync();
        await ObserveAsync("mend-span", async form =>
        {
            await form.GetByLabel("Start of the stretch").FillAsync("39");
            await form.GetByLabel("End of the stretch").FillAsync("41");
            await form.GetByLabel("What was found").FillAsync("joint pulled apart by a spade");
        });
        await ObserveAsync("mower-check", form => form.GetByLabel("Yes, it runs").CheckAsync());
        await Expect(page.GetByRole(AriaRole.Paragraph).Filter(new() { HasText = "The mower runs. Nothing is left to do." })).ToBeVisibleAsync(); // the sheet for paper says it too
        await PressAsync(Button("Close the case"));
        await Expect(dialog.GetByLabel("Found at")).ToHaveValueAsync(new Regex(@"^(39\.[5-9]|40(\.[0-4])?)$"));
        await PressAsync(dialog.GetByRole(AriaRole.Button, new() { Name = "Close the case" }));
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");

        // Found again by words of the complaint.
        await PressAsync(page.GetByRole(AriaRole.Link, new() { Name = "Bench", Exact = true }));
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await PressAsync(page.Locator(".search-button"));
        await dialog.GetByRole(AriaRole.Textbox).FillAsync($"middle {device}");
        await Expect(dialog.Locator("a.line")).ToContainTextAsync("Thimble Hollow");
        await PressAsync(dialog.Locator("a.line").First);
        await Expect(page.Locator(".place-head .notice")).ToContainTextAsync("Closed");

        ILocator Tool(string name) => page.GetByRole(AriaRole.Group, new() { Name = "Tools", Exact = true }).GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

        // A place of the plan, in metres, by whatever points here.
        async Task TouchAsync(double east, double north)
        {
            float[] at = await board.Locator("svg.sw-plan g[transform]").First.EvaluateAsync<float[]>(
                "(group, place) => { const at = new DOMPoint(...place).matrixTransform(group.getScreenCTM()); return [at.x, at.y]; }", new[] { east, north });
            await (byTouch ? page.Touchscreen.TapAsync(at[0], at[1]) : page.Mouse.ClickAsync(at[0], at[1]));
        }

        async Task ObserveAsync(string step, Func<ILocator, Task> fill)
        {
            int before = await page.Locator(".known > li").CountAsync();
            await PressAsync(Button("Add an observation"));
            await dialog.GetByLabel("What was done").SelectOptionAsync(step);
            await fill(dialog);
            await PressAsync(dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }));
            await Expect(page.Locator(".known > li")).ToHaveCountAsync(before + 1);
            await Expect(dialog).ToHaveCountAsync(0);
            await Expect(page.GetByText("Working it out")).ToHaveCountAsync(0);
        }
    }

    [Fact]
    public async Task File_dropped_onto_the_drawing_board_becomes_the_drawing()
    {
        const string File =
            """{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"role":"loop"},"geometry":{"type":"LineString","coordinates":[[-1.5,52.0],[-1.4997,52.0],[-1.4997,52.0002],[-1.5,52.0002],[-1.5,52.0]]}}]}""";
        IPage page = await app.DeviceAsync();
        await page.GotoAsync(await app.DemoAsync() + "/yards");
        await page.Locator("main a.line").First.ClickAsync();
        IJSHandle files = await page.EvaluateHandleAsync(
            "([name, text]) => { const all = new DataTransfer(); all.items.add(new File([text], name)); return all; }", new[] { "thimble.geojson", File });
        await page.GetByRole(AriaRole.Button, new() { Name = "Draw", Exact = true }).ClickAsync();
        string before = await page.Locator(".sw-totals").InnerTextAsync();
        ILocator board = page.Locator(".sw-stage");
        await board.DispatchEventAsync("dragover", new { dataTransfer = files });
        await board.DispatchEventAsync("drop", new { dataTransfer = files });
        await Expect(page.Locator(".sw-totals")).Not.ToHaveTextAsync(before);
        await Expect(page.Locator(".sw-totals")).ToContainTextAsync("85.7 m of wire");
        await Expect(page.GetByText("Kept as it is drawn.")).ToBeVisibleAsync();

        // One step, which can be taken back.
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }).ClickAsync();
        await Expect(page.Locator(".sw-totals")).ToHaveTextAsync(before);

        // Dropped onto the yard's page, beside the board, it is the same; an outline alone is asked about in a sentence.
        await page.GetByRole(AriaRole.Button, new() { Name = "Done drawing" }).ClickAsync();
        await Expect(page.GetByText("85.7 m")).ToHaveCountAsync(0);
        ILocator heading = page.GetByRole(AriaRole.Heading, new() { Level = 1 });
        string outline = File.Replace("\"loop\"", "\"lawn\"", StringComparison.Ordinal).Replace("LineString", "Polygon", StringComparison.Ordinal).Replace("[[-1.5,52.0],", "[[[-1.5,52.0],", StringComparison.Ordinal).Replace("]]}", "]]]}", StringComparison.Ordinal);
        IJSHandle lawn = await page.EvaluateHandleAsync(
            "([name, text]) => { const all = new DataTransfer(); all.items.add(new File([text], name)); return all; }", new[] { "outline.geojson", outline });
        await OwnerPage.UntilAsync(page, "document.querySelector('[aria-labelledby=files] input[type=file]')");
        await DropAsync(lawn);
        await Expect(page.GetByText("outline.geojson has the outline of a lawn, but no wire.")).ToBeVisibleAsync();
        await DropAsync(files);
        await Expect(page.Locator("[aria-labelledby=budget]")).ToContainTextAsync("85.7 m");
        await page.Context.CloseAsync();

        async Task DropAsync(IJSHandle what)
        {
            await heading.DispatchEventAsync("dragover", new { dataTransfer = what });
            await heading.DispatchEventAsync("drop", new { dataTransfer = what });
        }
    }

    [Fact]
    public async Task What_is_entered_without_connection_waits_and_arrives_once_though_page_and_server_die()
    {
        IPage page = await SignedInAsync(390, 844, ColorScheme.Dark);
        await NoViolationsAsync(page, "bench, dark, phone");
        app.Kill();

        await AddOwnerAsync(page, "Fescue Otter");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("saved here");
        await app.StartAsync();
        await page.ReloadAsync();
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");

        IPage other = await SignedInAsync(1440, 900, ColorScheme.Dark);
        await other.Keyboard.PressAsync("/");
        await Expect(other.Locator("dialog[open] input").First).ToBeFocusedAsync();
        await other.Keyboard.TypeAsync("fescue");
        await Expect(other.Locator("dialog[open] a.line")).ToHaveCountAsync(1);
    }

    private static async Task AddOwnerAsync(IPage page, string name)
    {
        await page.GetByRole(AriaRole.Button, new() { Name = "New owner" }).ClickAsync();
        await page.Locator("dialog[open]").GetByLabel("Name").FillAsync(name);
        await page.Locator("dialog[open]").GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync(name);
    }

    private static async Task NoViolationsAsync(IPage page, string place)
    {
        IReadOnlyList<string> found = await page.ViolationsAsync(place);
        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    private async Task<IPage> SignedInAsync(int width, int height, ColorScheme scheme, bool hasTouch = false)
    {
        IPage page = await app.DeviceAsync(width, height, scheme, hasTouch);
        await page.GotoAsync(app.Root);
        await Expect(page.Locator(".gate form")).ToBeVisibleAsync();
        await NoViolationsAsync(page, "sign-in");
        if (await page.Locator("#code").CountAsync() > 0)
        {
            await page.GetByLabel("One-time code").FillAsync(app.Code!);
            await page.GetByLabel("Your name").FillAsync("Robin Thimble");
        }

        await page.GetByLabel("E-mail").FillAsync(ServedApp.Email);
        await page.GetByLabel("Password").FillAsync(ServedApp.Password);
        await page.Locator(".gate form button").ClickAsync();
        await Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Bench");
        await Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");
        return page;
    }

    [GeneratedRegex(@"([\d.]+) m from A\b")]
    private static partial Regex Metres();
}
