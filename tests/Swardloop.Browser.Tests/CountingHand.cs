using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>A person's hand at a page, which counts what it does: taps, swipes, ticks, fields filled in, keys.</summary>
/// <param name="page">The page.</param>
/// <param name="byTouch">Whether by touch, or with a mouse.</param>
internal sealed class CountingHand(IPage page, bool byTouch)
{
    // Brings the middle of something into sight by swiping as a thumb does, seven tenths of what is seen at a time, and says how many swipes it took.
    private const string Swipe =
        """
        async part => {
            const inSight = () => {
                const box = part.getBoundingClientRect(), x = box.left + box.width / 2, y = box.top + box.height / 2;
                const there = x >= 0 && y >= 0 && x < innerWidth && y < innerHeight ? document.elementFromPoint(x, y) : null;
                return !!there && (part.contains(there) || there.contains(part) || part.closest("label")?.contains(there));
            };
            const scroller = part.closest("dialog") ?? document.scrollingElement;
            const height = Math.min(innerHeight, scroller.clientHeight);
            let swipes = 0;
            while (!inSight() && swipes < 30) {
                const box = part.getBoundingClientRect(), below = box.top + box.height / 2 > innerHeight / 2;
                scroller.scrollBy({ top: (below ? 0.7 : -0.7) * height, behavior: "instant" });
                swipes++;
                await new Promise(done => requestAnimationFrame(() => setTimeout(done)));
            }
            return inSight() ? swipes : -1;
        }
        """;

    /// <summary>Taps or clicks, ticks not counted.</summary>
    public int Taps { get; private set; }

    /// <summary>Swipes or turns of the wheel needed to see what is tapped next.</summary>
    public int Swipes { get; private set; }

    /// <summary>Boxes ticked.</summary>
    public int Ticks { get; private set; }

    /// <summary>Fields filled in by typing or choosing.</summary>
    public int Fields { get; private set; }

    /// <summary>Keys that do something by themselves.</summary>
    public int Keys { get; private set; }

    /// <summary>Digits typed on a number pad: a reading has as many as the meter shows.</summary>
    public int Digits { get; private set; }

    /// <summary>In a line of the record.</summary>
    public string Counted => $"{Taps} taps, {Ticks} ticks, {Swipes} scrolls, {Fields} fields, {Keys} keys, {Digits} digits";

    /// <summary>Taps.</summary>
    public async Task TapAsync(ILocator what)
    {
        await TouchAsync(what);
        Taps++;
    }

    /// <summary>Types a digit by touch.</summary>
    public async Task DigitAsync(ILocator key)
    {
        await TouchAsync(key);
        Digits++;
    }

    /// <summary>Ticks a box.</summary>
    public async Task TickAsync(ILocator box)
    {
        await TouchAsync(box);
        Ticks++;
    }

    /// <summary>Chooses one of several beside each other: a field.</summary>
    public async Task PickAsync(ILocator choice)
    {
        await TouchAsync(choice);
        Fields++;
    }

    /// <summary>Types into a field.</summary>
    public async Task FillAsync(ILocator field, string text)
    {
        await Expect(field).ToBeVisibleAsync();
        await field.FillAsync(text);
        Fields++;
    }

    /// <summary>Presses a key.</summary>
    public async Task PressAsync(string key)
    {
        await page.Keyboard.PressAsync(key);
        Keys++;
    }

    private async Task TouchAsync(ILocator what)
    {
        await Expect(what).ToBeVisibleAsync();
        int swipes = await what.EvaluateAsync<int>(Swipe);
        Assert.True(swipes >= 0, $"{what} never comes into sight.");
        Swipes += swipes;
        await (byTouch ? what.TapAsync() : what.ClickAsync());
    }
}
