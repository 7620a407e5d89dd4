using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Swardloop.Core.Geometry;

namespace Swardloop.Drawing.Tests.Browser;

[Collection(OneBrowser.Name)]
public sealed class EditorBrowserTests(BrowserFixture browser)
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_yard_is_drawn_by_mouse_and_by_touch(bool phone)
    {
        await using OpenPage opened = await browser.Open("editor", phone);
        IPage page = opened.Page;
        await page.GetByRole(AriaRole.Button, new() { Name = "Wire", Exact = true }).ClickAsync();
        foreach (PlanPoint corner in (PlanPoint[])[new(2, 2), new(20, 2), new(20, 14), new(2, 14), new(2, 2)])
        {
            (float x, float y) = await Screen(page, corner);
            await (phone ? page.Touchscreen.TapAsync(x, y) : page.Mouse.ClickAsync(x, y));
        }

        JsonArray path = (await Yard(page))["loop"]!["path"]!.AsArray();
        Assert.Equal(5, path.Count);
        Assert.Equal(path[0]!.ToJsonString(), path[4]!.ToJsonString());
        Assert.Equal((double)path[0]![1]!, (double)path[1]![1]!);
        Assert.Equal((double)path[1]![0]!, (double)path[2]![0]!);
        Assert.Contains("m² of lawn", await page.TextContentAsync(".sw-totals"), StringComparison.Ordinal);
        await page.WaitForFunctionAsync("""
            () => { const canvas = document.querySelector('canvas'); return canvas.getContext('2d').getImageData(canvas.width / 2, canvas.height / 2, 1, 1).data[3] === 255; }
            """);
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task A_corner_dragged_by_mouse_tells_frames_and_one_change_and_is_undone_by_keys()
    {
        await using OpenPage opened = await browser.Open("editor/thimble-court");
        IPage page = opened.Page;
        await page.WaitForSelectorAsync(".sw-wire");
        string before = (await Yard(page)).ToJsonString();
        (float x, float y) = await Screen(page, new(11.7, 11.7));
        await page.Mouse.MoveAsync(x, y);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(x - 60, y + 40, new() { Steps = 12 });
        await page.WaitForFunctionAsync("() => +document.querySelector('#heard').dataset.frames >= 0");
        await page.Mouse.UpAsync();
        await page.WaitForFunctionAsync("() => document.querySelector('#heard').dataset.changes === '1'");
        Assert.True(int.Parse((await page.GetAttributeAsync("#heard", "data-frames"))!, System.Globalization.CultureInfo.InvariantCulture) >= 2);
        Assert.NotEqual(before, (await Yard(page)).ToJsonString());
        await page.FocusAsync(".sw-stage");
        await page.Keyboard.PressAsync("Control+z");
        await page.WaitForFunctionAsync("() => document.querySelector('#heard').dataset.changes === '2'");
        Assert.Equal(before, (await Yard(page)).ToJsonString());
        Assert.Empty(opened.Complaints);
    }

    [Fact]
    public async Task A_photo_is_scaled_by_two_touches_and_a_distance()
    {
        await using OpenPage opened = await browser.Open("editor", phone: true);
        IPage page = opened.Page;
        await page.GetByText("Trace a photo or plan").ClickAsync();
        byte[] picture = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAQAAAADCAIAAAA7ljmRAAAAEElEQVR4nGOomBYFRww4OQBKrhDhdWMoKgAAAABJRU5ErkJggg==");
        await page.SetInputFilesAsync("input[accept='image/*']", new FilePayload { Name = "plan.png", MimeType = "image/png", Buffer = picture });
        await page.WaitForSelectorAsync(".sw-photo", new() { State = WaitForSelectorState.Attached });
        string before = (await page.GetAttributeAsync(".sw-photo", "transform"))!;
        await page.Locator(".sw-stage").ScrollIntoViewIfNeededAsync();
        foreach (PlanPoint place in (PlanPoint[])[new(8, 9), new(14, 9)])
        {
            (float x, float y) = await Screen(page, place);
            await page.Touchscreen.TapAsync(x, y);
        }

        await page.GetByLabel("Distance of the two places").FillAsync("12,5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Set scale" }).ClickAsync();
        await page.WaitForFunctionAsync("before => document.querySelector('.sw-photo').getAttribute('transform') !== before", before);
        string scaled = (await page.GetAttributeAsync(".sw-photo", "transform"))!;

        // Lines, photo and scale are steps of one row, back and forth.
        await page.GetByRole(AriaRole.Button, new() { Name = "Wire", Exact = true }).First.ClickAsync();
        await page.Locator(".sw-stage").ScrollIntoViewIfNeededAsync();
        foreach (PlanPoint corner in (PlanPoint[])[new(9, 9), new(13, 9)])
        {
            (float x, float y) = await Screen(page, corner);
            await page.Touchscreen.TapAsync(x, y);
        }

        await Assertions.Expect(page.Locator("circle.sw-handle")).ToHaveCountAsync(2);
        ILocator undo = page.GetByRole(AriaRole.Button, new() { Name = "Undo", Exact = true }), redo = page.GetByRole(AriaRole.Button, new() { Name = "Redo", Exact = true });
        await undo.ClickAsync();
        await undo.ClickAsync();
        await Assertions.Expect(page.Locator("circle.sw-handle")).ToHaveCountAsync(0);
        await undo.ClickAsync();
        await Assertions.Expect(page.Locator(".sw-photo")).ToHaveAttributeAsync("transform", before);
        await redo.ClickAsync();
        await Assertions.Expect(page.Locator(".sw-photo")).ToHaveAttributeAsync("transform", scaled);
        await redo.ClickAsync();
        await redo.ClickAsync();
        await Assertions.Expect(page.Locator("circle.sw-handle")).ToHaveCountAsync(2);
        await Assertions.Expect(redo).ToBeDisabledAsync();
        Assert.Empty(opened.Complaints);
    }

    [Theory]
    [InlineData(false, "Begin at terminal A. Click")]
    [InlineData(true, "Begin at terminal A. Touch")]
    public async Task An_empty_board_has_the_wire_in_hand_its_panel_where_there_is_room_and_words_for_what_points(bool phone, string words)
    {
        await using OpenPage opened = await browser.Open("editor", phone);
        IPage page = opened.Page;
        await Assertions.Expect(page.Locator(".sw-tool-row button[aria-pressed=true]").First).ToHaveTextAsync("Wire");
        ILocator shown = page.Locator(phone ? ".sw-reading .sw-by-touch" : ".sw-reading .sw-by-mouse"), hidden = page.Locator(phone ? ".sw-reading .sw-by-mouse" : ".sw-reading .sw-by-touch");
        await Assertions.Expect(shown).ToBeVisibleAsync();
        await Assertions.Expect(shown).ToContainTextAsync(words);
        await Assertions.Expect(hidden).ToBeHiddenAsync();

        LocatorBoundingBoxResult board = (await page.Locator(".sw-board").BoundingBoxAsync())!, panel = (await page.Locator(".sw-panel").BoundingBoxAsync())!;
        Assert.True(phone ? panel.Y >= board.Y + board.Height : panel.X >= board.X + board.Width && panel.Y < board.Y + board.Height, $"board {board.X}, {board.Y}; panel {panel.X}, {panel.Y}");
        Assert.Empty(opened.Complaints);
    }

    private static async Task<JsonNode> Yard(IPage page)
    {
        await page.WaitForFunctionAsync("() => document.querySelector('#file').textContent.length > 0");
        return JsonNode.Parse((await page.TextContentAsync("#file"))!)!;
    }

    // Where a place of the plan is on the screen, by the board's own transform.
    private static async Task<(float X, float Y)> Screen(IPage page, PlanPoint place)
    {
        double[] at = await page.EvaluateAsync<double[]>("""
            ([east, north]) => {
                const group = [...document.querySelectorAll('.sw-plan')].at(-1).querySelector('g');
                const point = new DOMPoint(east, north).matrixTransform(group.getScreenCTM());
                return [point.x, point.y];
            }
            """, new[] { place.EastMetres, place.NorthMetres });
        return ((float)at[0], (float)at[1]);
    }
}
