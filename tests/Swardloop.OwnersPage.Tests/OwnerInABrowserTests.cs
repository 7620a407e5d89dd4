using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Swardloop.Tests.Reference;
using Swardloop.Workshop.Records;

namespace Swardloop.OwnersPage.Tests;

/// <summary>The owner's page in a real browser, the size of a telephone.</summary>
public sealed class OwnerInABrowserTests : IAsyncLifetime
{
    /// <summary>Longest wait for anything (ms): a machine that is busy with other tests is slow, not wrong. What the driver waits by itself are five
    /// seconds, and a page whose advice is computed beside other work takes longer.</summary>
    private const float Patience = 180_000;

    private readonly RunningWorkshop _workshop = new();
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        await _workshop.InitializeAsync();
        Assertions.SetDefaultExpectTimeout(Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = DebianChromium.Path,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        await _workshop.DisposeAsync();
    }

    /// <summary>From the link to a usable loop reading by following only what the page says, without script.</summary>
    [Fact]
    public async Task Owner_who_has_never_seen_it_gets_from_link_to_loop_reading_without_script()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        IPage page = await PageAsync(script: false);

        await page.GotoAsync(_workshop.Root + path);
        await page.GetByRole(AriaRole.Button, new() { Name = "I have read this. Go on" }).ClickAsync();
        await page.GetByLabel("First number: the two probes held together").FillAsync("0,3");
        await page.GetByLabel("Second number: one probe on each wire end").FillAsync("57");
        await page.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Your answer has arrived at the workshop");
        RecordState observation = Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
        Assert.Equal(0.3, observation.Value("reading")!.Value.GetProperty("leadOhms").GetDouble());
    }

    [Fact]
    public async Task Language_once_chosen_stays()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "station-lamp");
        IPage page = await PageAsync(script: true);

        await page.GotoAsync(_workshop.Root + path);
        await page.GetByRole(AriaRole.Link, new() { Name = "Deutsch" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Ich habe das gelesen. Weiter" }).ClickAsync();
        await page.GetByLabel("Dunkel").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Antwort senden" }).ClickAsync();

        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Ihre Antwort ist um");
        await Assertions.Expect(page.GetByText("Lampe der Station ist aus")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Way_back_after_a_refused_answer_is_free_and_what_was_typed_stands_there()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        IPage page = await PageAsync(script: false);
        ILocator second = page.GetByLabel("Second number: one probe on each wire end"), problem = page.Locator(".problem");
        await page.GotoAsync(_workshop.Root + path);
        await page.GetByRole(AriaRole.Button, new() { Name = "I have read this. Go on" }).ClickAsync();
        await second.FillAsync("five");
        await page.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).ClickAsync();
        await Assertions.Expect(problem).ToContainTextAsync("We cannot read this as a number");
        await Assertions.Expect(second).ToHaveValueAsync("five");

        // Back and forth without a word of sending a form again.
        await page.GoBackAsync();
        await Assertions.Expect(second).ToBeVisibleAsync();
        await Assertions.Expect(problem).ToHaveCountAsync(0);
        await page.GoBackAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "I have read this. Go on" })).ToBeVisibleAsync();
        await page.GoForwardAsync();
        await page.GoForwardAsync();
        await Assertions.Expect(second).ToHaveValueAsync("five");

        await second.FillAsync("57");
        await page.GetByRole(AriaRole.Button, new() { Name = "Send the answer" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Your answer has arrived at the workshop");
        Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
    }

    [Theory]
    [InlineData(ColorScheme.Light, "en")]
    [InlineData(ColorScheme.Dark, "de")]
    public async Task Axe_finds_nothing_on_any_page(ColorScheme scheme, string language)
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance mower-start mower-reach", language: language);
        IPage page = await PageAsync(script: true, scheme);

        foreach (string one in (string[])["", "?read=loop-resistance", "?news=answer"])
        {
            await page.GotoAsync(_workshop.Root + path + one);
            await AssertCleanAsync(page, one);
        }

        await page.GotoAsync(_workshop.Root + path + "?read=loop-resistance");
        await page.Locator("button.main").ClickAsync(); // nothing filled in
        await Assertions.Expect(page.Locator(".problem").First).ToBeVisibleAsync();
        await page.WaitForLoadStateAsync(LoadState.Load);
        await AssertCleanAsync(page, "with a problem");
        await page.GotoAsync(_workshop.Root + "/o/none");
        await AssertCleanAsync(page, "gone");
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), "wider than the telephone");
    }

    private static async Task AssertCleanAsync(IPage page, string which)
    {
        var result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, $"{which}: {string.Join("; ", result.Violations.Select(one => $"{one.Id}: {one.Help}"))}");
    }

    private async Task<IPage> PageAsync(bool script, ColorScheme scheme = ColorScheme.Light)
    {
        IBrowserContext context = await _browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = 390, Height = 844 },
            HasTouch = true,
            JavaScriptEnabled = script,
            ColorScheme = scheme,
            BypassCSP = script, // axe is put into the page; ours needs no script
        });
        context.SetDefaultTimeout(Patience);
        return await context.NewPageAsync();
    }
}
