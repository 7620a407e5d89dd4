using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>From what is read at the station to the place on the wire: a guide wire told by an owner's link, a tone's ratio in the garden, and a wire found by ear.</summary>
[Collection(ServedAppGroup.Name)]
public sealed partial class PlacedByReadingsTests(ServedApp app)
{
    /// <summary>116.4 m of wire, a guide that joins at 58.2 m, joints before it and behind it.</summary>
    private const string Guided =
        """
        {"format":"swardloop-yard/1","name":"Sorrel Weir","lawn":[[[0,0],[20,0],[20,39],[0,39]]],
         "loop":{"path":[[10,0.3],[19.7,0.3],[19.7,38.7],[0.3,38.7],[0.3,0.3],[10,0.3]],"conductor":{"material":"copper","areaMm2":1.5},
                 "joints":[{"atM":31,"style":"gel"},{"atM":57.8,"style":"gel"},{"atM":88,"style":"twisted"}]},
         "guides":[{"name":"G1","joinsAtM":57.8,"path":[[10,0.3],[10,38.7]]}]}
        """;

    [Fact]
    public async Task Guide_reading_told_by_an_owners_link_ends_at_the_located_joint()
    {
        (Guid yard, Guid @case) = await CaseAsync("Sorrel Weir", Guided, "turns back in the middle of the lawn", onSite: false);
        await ReadAsync(yard, @case, new { test = "loop-resistance", ohms = 97.0, leadOhms = 0.2 });
        IPage desk = await app.SignedInAsync();
        await desk.GotoAsync($"{app.Root}/case/{@case}");
        await Expect(desk.Locator(".step")).ToBeVisibleAsync();

        await desk.GetByRole(AriaRole.Button, new() { Name = "Ask the owner" }).First.ClickAsync();
        ILocator dialog = desk.Locator("dialog[open]");
        await dialog.Locator("summary").ClickAsync();
        await dialog.GetByLabel("Measure the guide wire").CheckAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Make the link" }).ClickAsync();
        string link = (await dialog.GetByRole(AriaRole.Link, new() { Name = "See it as the owner does" }).GetAttributeAsync("href"))!;
        await desk.Keyboard.PressAsync("Escape");
        await OwnerPage.AllArrivedAsync(desk); // before that the link opens nothing

        IPage owner = await app.DeviceAsync(390, 844, hasTouch: true);
        await owner.GotoAsync(link);
        await owner.GetByRole(AriaRole.Button, new() { Name = "I have read this. Go on" }).TapAsync();
        await Expect(owner.Locator("figure svg").First).ToBeVisibleAsync(); // how to connect
        await SeenAsync(owner, "owner-guide");
        await owner.GetByLabel("two probes held together").FillAsync("0.2");
        await owner.GetByLabel("the other on loop end A").FillAsync("1,3");
        await owner.GetByLabel("the other on loop end B").FillAsync("96,6");
        await owner.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).TapAsync();
        await Expect(owner.GetByRole(AriaRole.Status)).ToContainTextAsync("Your answer has arrived at the workshop");

        // The half behind the guide's joint, and in it the twisted joint before all else.
        await desk.ReloadAsync();
        await Expect(desk.Locator(".known > li")).ToHaveCountAsync(2);
        await Expect(desk.GetByText("Working it out")).ToHaveCountAsync(0);
        await Expect(desk.Locator(".where")).ToContainTextAsync(Metres());
        Assert.InRange(await PlaceAsync(desk), 57, 116.4);
        await SeenAsync(desk, "guide-read");

        // The drop across that joint settles it.
        await desk.GetByRole(AriaRole.Button, new() { Name = "Add an observation" }).ClickAsync();
        await dialog.GetByLabel("What was done").SelectOptionAsync("joint-drop");
        await dialog.GetByLabel("along the wire from terminal A").FillAsync("88");
        await dialog.GetByLabel("Current through the loop").FillAsync("80");
        await dialog.GetByLabel("Voltage across the joint").FillAsync("7600");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Expect(dialog).ToHaveCountAsync(0);
        await Expect(desk.Locator(".known > li")).ToHaveCountAsync(3);
        await Expect(desk.GetByText("Working it out")).ToHaveCountAsync(0);
        await Expect(desk.Locator(".where")).ToContainTextAsync("oint 3");
        Assert.Equal(88, await PlaceAsync(desk), 0.6);
        await SeenAsync(desk, "joint-located");
        await Expect(desk.Locator("dt").Filter(new() { HasTextString = "ToDo" })).ToHaveCountAsync(0); // once a parameter's name stood there

        // The picture as it is now, the guide's tools on the drawing board, and the workshop's pace, on desk and phone.
        List<string> found = [];
        await desk.GetByLabel("as it likely is now").CheckAsync();
        found.AddRange(await desk.ViolationsEverywhereAsync("case as it is now"));
        await desk.GotoAsync($"{app.Root}/yard/{yard}");
        await desk.GetByRole(AriaRole.Button, new() { Name = "Draw", Exact = true }).ClickAsync();
        await desk.GetByRole(AriaRole.Button, new() { Name = "Guide G1", Exact = true }).ClickAsync();
        await Expect(desk.GetByLabel("Joins the loop at")).ToHaveValueAsync("57.8");
        found.AddRange(await desk.ViolationsEverywhereAsync("guide on the board"));
        await desk.GotoAsync($"{app.Root}/trade");
        await desk.GetByText("Tests: minutes and parts").ClickAsync();
        found.AddRange(await desk.ViolationsEverywhereAsync("pace"));
        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    [Fact]
    public async Task Tones_ratio_in_the_garden_ends_at_the_located_joint()
    {
        const string Plain =
            """
            {"format":"swardloop-yard/1","name":"Yarrow Dell","lawn":[[[0,0],[20,0],[20,34],[0,34]]],
             "loop":{"path":[[5,0.3],[19.7,0.3],[19.7,33.7],[0.3,33.7],[0.3,0.3],[5,0.3]],"conductor":{"material":"copper","areaMm2":1.5},
                     "joints":[{"atM":14.7,"style":"gel"},{"atM":41,"style":"crimped"},{"atM":66,"style":"twisted"},{"atM":91,"style":"gel"}]}}
            """;
        const string Title = "Find the place by a tone's voltage ratio to earth";
        (Guid yard, Guid @case) = await CaseAsync("Yarrow Dell", Plain, "stops before the middle and turns round", onSite: true);
        await ReadAsync(yard, @case, new { test = "loop-resistance", ohms = 101.0, leadOhms = 0.2 });
        IPage page = await app.DeviceAsync(390, 844, ColorScheme.Dark, hasTouch: true);
        await app.SignInAsync(page.Context);
        await page.GotoAsync($"{app.Root}/case/{@case}/garden");
        ILocator step = page.Locator("#garden-step");
        await Expect(step).ToBeVisibleAsync();
        await OwnerPage.OpenVisitAsync(page);
        if (await step.InnerTextAsync() != Title)
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Can't be done now" }).First.TapAsync();
            await page.Locator("dialog[open]").GetByRole(AriaRole.Button).Filter(new() { HasTextString = Title }).TapAsync();
        }

        await Expect(step).ToHaveTextAsync(Title);
        await OwnerPage.HeedAsync(page);

        await Expect(page.Locator(".how")).ToBeVisibleAsync();
        await page.Locator(".garden details.connect summary").TapAsync();
        await Expect(page.Locator(".garden figure svg").First).ToBeVisibleAsync(); // how to connect
        await SeenAsync(page, "garden-ratio");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter the result" }).TapAsync();
        foreach (string volts in (string[])["0.60", "0.40"])
        {
            foreach (char key in volts)
            {
                await page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new($"^{Regex.Escape(key.ToString())}$") }).TapAsync();
            }

            await page.Locator(".pad-done").TapAsync();
        }

        // 60 % of the wire lie beyond it: the joint at 41 of 107 m, and the garden sends there.
        await Expect(page.Locator(".garden-recorded")).ToContainTextAsync("0.6");
        await page.GotoAsync($"{app.Root}/case/{@case}");
        await Expect(page.Locator(".where")).ToContainTextAsync("oint 2");
        Assert.InRange(await PlaceAsync(page), 38, 44);
        await SeenAsync(page, "ratio-located");
    }

    [Fact]
    public async Task Wire_that_nobody_drew_is_advised_by_length_and_then_found_by_ear()
    {
        IPage page = await app.DeviceAsync(390, 844, hasTouch: true);
        await app.SignInAsync(page.Context);
        await page.Context.GrantPermissionsAsync(["geolocation"]);
        await page.GotoAsync(app.Root);
        ILocator dialog = page.Locator("dialog[open]");
        ILocator Button(string name) => page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

        await Button("New yard").TapAsync();
        await dialog.GetByLabel("What the yard is called").FillAsync("Dock Leaf");
        await dialog.GetByLabel("known is").SelectOptionAsync("Area");
        await dialog.GetByLabel("Value").FillAsync("400");
        await SeenAsync(page, "new-yard-by-area");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).TapAsync();
        await Expect(page.GetByText("Nobody knows where this wire lies")).ToBeVisibleAsync();
        await Expect(page.GetByText("94 m").First).ToBeVisibleAsync(); // 4.7 √400
        Guid yard = Guid.Parse(YardInAddress().Match(page.Url).Groups[1].Value);

        // Places touched on the plan, then confirmed.
        await Button("Draw").TapAsync();
        await page.GetByRole(AriaRole.Group, new() { Name = "Tools", Exact = true }).GetByRole(AriaRole.Button, new() { Name = "Heard places", Exact = true }).TapAsync();
        await page.Locator(".sw-stage").ScrollIntoViewIfNeededAsync();
        foreach ((double east, double north) in (IEnumerable<(double, double)>)[(11, 1), (18, 1), (21, 3), (21, 9), (21, 17), (15, 18), (8, 18), (2, 17), (2, 10), (2, 2), (6, 1)])
        {
            float[] at = await page.Locator(".sw-stage svg.sw-plan g[transform]").First.EvaluateAsync<float[]>(
                "(group, place) => { const at = new DOMPoint(...place).matrixTransform(group.getScreenCTM()); return [at.x, at.y]; }", new[] { east, north });
            await page.Touchscreen.TapAsync(at[0], at[1]);
        }

        await Expect(page.Locator(".sw-reading")).ToContainTextAsync("through 11 places");
        await SeenAsync(page, "heard-places");
        IReadOnlyList<string> violations = await page.ViolationsAsync("heard places");
        Assert.True(violations.Count == 0, string.Join('\n', violations));
        await Button("Take this as the wire").TapAsync();
        await Expect(page.Locator(".sw-totals")).ToContainTextAsync(new Regex(@"^(6[5-9]|7[0-3])(\.\d)? m of wire"));
        await Button("Done drawing").TapAsync();
        await Expect(page.GetByText("Where this wire lies was heard")).ToBeVisibleAsync();
        await OwnerPage.AllArrivedAsync(page);
        Assert.Contains(@"""course"":""heard""", (await app.HistoryAsync(yard, "file"))[^1].Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);

        // A new yard by the phone's position alone.
        await page.GotoAsync(app.Root);
        await Button("New yard").TapAsync();
        await dialog.GetByLabel("What the yard is called").FillAsync("Dock Root");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Draw it" }).TapAsync();
        await page.GetByRole(AriaRole.Group, new() { Name = "Tools", Exact = true }).GetByRole(AriaRole.Button, new() { Name = "Heard places", Exact = true }).TapAsync();
        int heard = 0;
        foreach ((float north, float east) in (IEnumerable<(float, float)>)[(0, 0), (0, 9), (8, 10), (16, 9), (16, 0), (9, -1)])
        {
            await page.Context.SetGeolocationAsync(new() { Latitude = 52.1f + (north / 111_270), Longitude = 5.3f + (east / 68_470), Accuracy = 2 });
            await Button("I hear it here").TapAsync();
            await Expect(page.Locator(".sw-stage circle.sw-handle")).ToHaveCountAsync(++heard);
        }

        await Button("Take this as the wire").TapAsync();
        await Expect(page.Locator(".sw-totals")).ToContainTextAsync(new Regex(@"^(49|5\d)(\.\d)? m of wire"));
        await Expect(page.GetByText("Kept as it is drawn.")).ToBeVisibleAsync();
    }

    private async Task<(Guid Yard, Guid Case)> CaseAsync(string name, string file, string complaint, bool onSite)
    {
        Guid yard = await app.AddAsync("yard", new { name, file = JsonSerializer.Deserialize<JsonElement>(file) });
        return (yard, await app.AddAsync("case", new { yard, state = "open", complaint, onSite }));
    }

    private Task<Guid> ReadAsync(Guid yard, Guid @case, object reading) => app.AddAsync("observation", new { yard, @case, reading });

    private static async Task<double> PlaceAsync(IPage page) =>
        double.Parse(Metres().Match(await page.Locator(".where").InnerTextAsync()).Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Kept as pictures where somebody wants to look at them, as in <see cref="EveryPlaceTests"/>.</summary>
    private static async Task SeenAsync(IPage page, string screen)
    {
        if (Environment.GetEnvironmentVariable("SWARDLOOP_PICTURES") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{screen}.png"), FullPage = true });
        }
    }

    [GeneratedRegex(@"([\d.]+) m from A\b")]
    private static partial Regex Metres();

    [GeneratedRegex("/yard/([0-9a-f-]{36})")]
    private static partial Regex YardInAddress();
}
