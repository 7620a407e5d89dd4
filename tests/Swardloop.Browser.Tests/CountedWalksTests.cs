using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Steps;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>The three ways that people go most, in both languages, as the advice leads them, with everything counted that a hand has to do. What was
/// counted goes to the folder named by <c>SWARDLOOP_WALKS</c>; <c>bench/run-walks</c> makes the record of it.</summary>
[Collection(SecondServedAppGroup.Name)]
public sealed partial class CountedWalksTests(ServedApp app, ITestOutputHelper output)
{
    private const double LengthMetres = 104.7, BrokenAtMetres = 37.1, LoopOhms = 2.2;

    /// <summary>In the garden, 390 × 844, by touch: from the visit on the bench to the closed case. What holds for the visit is ticked once, what a step
    /// adds at that step, one box for each danger.</summary>
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task Technician_goes_from_bench_to_closed_case_in_25_taps(string locale)
    {
        (Guid yard, Guid @case) = await CaseAsync($"Garden Walk {locale}");
        Guid visit = await app.AddAsync("visit", new { yard, @case, on = DateTime.Now.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), at = "08:00" });
        IPage page = await app.DeviceAsync(390, 844, hasTouch: true, locale: locale);
        await app.SignInAsync(page.Context);
        await page.GotoAsync(app.Root);
        CountingHand hand = new(page, byTouch: true);
        BrokenJoint joint = new(LengthMetres, BrokenAtMetres, LoopOhms);
        WalkTexts texts = new(locale);

        // Visits of the day come first; the case is closed with its visit.
        ILocator visits = page.Locator("[aria-labelledby=visits]");
        await Expect(visits.Locator("a.line").Filter(new() { HasText = $"Garden Walk {locale}" })).ToBeVisibleAsync();
        Assert.True((await visits.BoundingBoxAsync())!.Y < (await page.Locator("[aria-labelledby=open-cases]").BoundingBoxAsync())!.Y);
        await hand.TapAsync(visits.Locator("a.line").Filter(new() { HasText = $"Garden Walk {locale}" }));
        await hand.TapAsync(page.Locator($"main a[href='case/{@case}/garden']"));

        List<string> steps = [], ticks = [];
        while (await GardenScreenAsync(page) is { IsClosed: false } screen)
        {
            Assert.True(hand.Taps < 80, $"No end: {hand.Counted}; {string.Join(" → ", steps)}; {screen.Heading}, {screen.Question}");
            if (screen.IsFinished)
            {
                await hand.TapAsync(page.Locator(".garden-hand .main"));
                steps.Add(screen.HasClosing ? "close" : "last reading");
                if (screen.HasClosing)
                {
                    await hand.TapAsync(page.Locator("dialog[open] button[type=submit]"));
                    await Expect(page.Locator("dialog[open]")).ToHaveCountAsync(0);
                }

                continue;
            }

            if (screen.Boxes > 0)
            {
                // One box at a time; the last one changes the screen.
                await hand.TickAsync(page.Locator(".cautions input:not(:checked)").First);
                ticks.Add(screen.IsOpening ? "visit" : texts.StepOf(screen.Heading).ToString());
                await ChangedAsync(page, screen);
                continue;
            }

            StepKind kind = texts.StepOf(screen.Heading);
            if (screen.IsPad)
            {
                await TypeAsync(hand, page, texts, kind, joint, screen);
                if (steps.Count == 0 || steps[^1] != kind.ToString())
                {
                    steps.Add(kind.ToString());
                }
            }
            else if (screen.HasAnswers)
            {
                (double? from, double? to) = await PlaceAsync(page);
                await hand.TapAsync(page.Locator(".garden-answers button").Filter(new() { HasTextRegex = texts.AnswerTo(kind, screen.Question, field => joint.Answer(kind, field, from, to)) }));
                steps.Add(kind.ToString());
            }
            else if (screen.HasHow)
            {
                if (StepCatalogue.Of(kind).IsRepair)
                {
                    (double? from, double? to) = await PlaceAsync(page);
                    joint.Done(kind, from, to);
                    steps.Add(kind.ToString());
                }

                await hand.TapAsync(page.Locator(".garden-hand > .main"));
            }

            await ChangedAsync(page, screen);
        }

        Record($"garden {texts.Language}", $"bench to closed case, technician, 390 x 844, {texts.Language}: {hand.Counted}; {string.Join(", ", steps)}; ticked for {string.Join(", ", ticks)}");
        await OwnerPage.AllArrivedAsync(page, texts.Language);
        Assert.Equal("closed", (await app.HistoryAsync(@case, "state"))[^1]);
        Assert.Equal("True", (await app.HistoryAsync(visit, "done"))[^1]);
        Assert.True(hand.Taps <= 25 && hand.Ticks <= 6, $"{hand.Counted}; {string.Join(", ", steps)}; ticked for {string.Join(", ", ticks)}");
        await page.Context.CloseAsync();
    }

    /// <summary>At the desk, 1440 × 900: the telephone rings, an owner who is known says what is wrong, and it goes on to the closed case. Until the first
    /// advice no more than five fields are filled in.</summary>
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task Desk_goes_from_ringing_telephone_to_advice_in_five_fields_and_to_the_closed_case(string locale)
    {
        string name = $"Desk Walk {locale}", yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        await app.AddAsync("yard", new { name, file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        (IPage page, CountingHand hand) = await DeskAsync(locale);
        WalkTexts texts = new(locale);
        BrokenJoint joint = new(LengthMetres, BrokenAtMetres, LoopOhms);
        ILocator dialog = page.Locator("dialog[open]");

        await hand.PressAsync("c");
        await hand.FillAsync(dialog.Locator("input[enterkeyhint=search]"), name);
        await hand.PressAsync("Enter");
        await hand.FillAsync(dialog.Locator("#new-case-complaint"), "no signal, the station shows an alarm");
        await hand.TapAsync(dialog.Locator("button[type=submit]"));
        await Expect(page.Locator(".step")).ToBeVisibleAsync();
        int untilAdvice = hand.Fields;
        string counted = hand.Counted;

        List<string> steps = [];
        while (await page.Locator("section[aria-labelledby=next] > .verdict").CountAsync() == 0)
        {
            Assert.True(steps.Count < 20, $"No end: {string.Join(" → ", steps)}");
            StepKind kind = texts.StepOf(await page.Locator(".step h3").InnerTextAsync());
            // What the owner does on the telephone has its cautions read out; who is in the garden ticks them there.
            foreach (ILocator caution in await page.Locator(".step:not(:has(.tag.strong)) .cautions input").AllAsync())
            {
                await hand.TickAsync(caution);
            }

            await hand.TapAsync(page.Locator(".step > .row button.main"));
            await Expect(dialog.Locator("form > .row button.main")).ToBeVisibleAsync(); // all of the form is there at once
            double? from = await MetresInAsync(dialog, "atM") ?? await MetresInAsync(dialog, "fromM"), to = await MetresInAsync(dialog, "toM");
            foreach (StepField field in WalkTexts.Fields(kind).Where(field => field.Required || field.Name == "leadOhms"))
            {
                ILocator input = dialog.Locator($"input[id$='-{field.Name}']");
                if (joint.Answer(kind, field, from, to) is not { } answer)
                {
                    continue;
                }

                if (field.Type == StepFieldType.Word)
                {
                    await hand.PickAsync(dialog.Locator($"input[name$='-{field.Name}'] + span").GetByText(texts.Answer(kind, field, answer), new() { Exact = true }));
                }
                else if (await input.InputValueAsync() == "")
                {
                    await hand.FillAsync(input, answer);
                }
            }

            int known = await page.Locator(".known > li").CountAsync();
            await hand.TapAsync(dialog.Locator("form > .row button.main"));
            await OwnerPage.UntilAsync(page, $"document.querySelectorAll('.known > li').length > {known} || document.querySelector('dialog[open] :is(.fault, .doubt)')");
            Assert.True(await dialog.CountAsync() == 0 || await dialog.Locator(".fault, .doubt").CountAsync() == 0, $"{kind}: {string.Join("; ", await dialog.Locator(".fault, .doubt").AllInnerTextsAsync())}");
            await Expect(dialog).ToHaveCountAsync(0);
            joint.Done(kind, from, to);
            steps.Add(kind.ToString());
            await OwnerPage.UntilAsync(page, "!document.querySelector('section[aria-labelledby=next] [role=status]') && document.querySelector('section[aria-labelledby=next] > .verdict, .step')");
        }

        await hand.TapAsync(page.Locator(".place-head button.main"));
        await hand.TapAsync(dialog.Locator("button[type=submit]"));
        await Expect(page.Locator(".place-head > .notice")).ToBeVisibleAsync();
        Record($"desk {texts.Language}", $"ring to advice, known owner, 1440 x 900, {texts.Language}: {counted}\nring to closed case, the same: {hand.Counted}; {string.Join(", ", steps)}, close");
        Assert.True(untilAdvice <= 5, counted);
        await page.Context.CloseAsync();
    }

    /// <summary>The same with somebody whom the workshop has never heard of: name, telephone, two lengths of the lawn, and what is wrong.</summary>
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task Desk_goes_from_an_unknown_caller_to_advice_in_five_fields(string locale)
    {
        (IPage page, CountingHand hand) = await DeskAsync(locale);
        WalkTexts texts = new(locale);
        ILocator dialog = page.Locator("dialog[open]"), inputs = dialog.Locator("form input");

        await hand.PressAsync("o");
        await hand.FillAsync(inputs.First, $"Marram Sedge {texts.Language}");
        await hand.FillAsync(dialog.Locator("input[type=tel]"), "01632 960 118");
        await hand.PressAsync("Enter");
        await hand.TapAsync(page.Locator("[aria-labelledby=owners-yards] button"));
        await Expect(inputs.First).ToHaveValueAsync($"Marram Sedge {texts.Language}");
        await hand.FillAsync(dialog.Locator("input[inputmode=decimal]").First, "22");
        await hand.FillAsync(dialog.Locator("input[inputmode=decimal]").Nth(1), "14");
        await hand.PressAsync("Enter");
        await Expect(dialog).ToHaveCountAsync(0);
        await hand.TapAsync(page.Locator(".place-head button.main"));
        await hand.FillAsync(dialog.Locator("#new-case-complaint"), "no signal, the station shows an alarm");
        await hand.TapAsync(dialog.Locator("button[type=submit]"));
        await Expect(page.Locator(".step")).ToBeVisibleAsync();

        Record($"caller {texts.Language}", $"ring to advice, unknown caller, 1440 x 900, {texts.Language}: {hand.Counted}");
        Assert.True(hand.Fields <= 5, hand.Counted);
        await page.Context.CloseAsync();
    }

    /// <summary>The owner with a telephone and a multimeter: whatever the page asks, until it asks nothing more.</summary>
    [Theory]
    [InlineData("en-GB")]
    [InlineData("de-DE")]
    public async Task Owner_is_asked_six_questions_at_most(string locale)
    {
        WalkTexts texts = new(locale);
        (Guid yard, Guid @case) = await CaseAsync($"Owner Walk {locale}");
        await app.SendAsync(HttpMethod.Post, "api/changes", new
        {
            changes = (object[])[new { id = Guid.CreateVersion7(), kind = "case", record = @case, set = new { state = "open", can = new { technician = true, owner = true, ownerInstruments = (string[])["multimeter"] } }, seen = new { }, madeAt = DateTimeOffset.Now }],
        });
        IPage desk = await app.DeviceAsync(locale: locale);
        await app.SignInAsync(desk.Context);
        await desk.GotoAsync($"{app.Root}/case/{@case}");
        await desk.Locator(".place-head button").Filter(new() { HasTextRegex = new("^(Ask the owner|Besitzer fragen)") }).ClickAsync();
        await desk.Locator("dialog[open] select").SelectOptionAsync(texts.Language);
        await desk.Locator("dialog[open] button[type=submit]").ClickAsync();
        string link = (await desk.Locator("dialog[open] a[target=_blank]").GetAttributeAsync("href"))!;
        await OwnerPage.AllArrivedAsync(desk, texts.Language);
        await desk.Context.CloseAsync();

        IPage page = await app.DeviceAsync(390, 844, hasTouch: true, locale: locale);
        await page.GotoAsync(link);
        CountingHand hand = new(page, byTouch: true);
        BrokenJoint joint = new(LengthMetres, BrokenAtMetres, LoopOhms);
        List<string> steps = [];
        int walked = 0;
        while (await page.Locator("main form button.main").CountAsync() > 0)
        {
            Assert.True(steps.Count < 12, $"No end: {string.Join(" → ", steps)}");
            await hand.TapAsync(page.Locator("main form button.main"));
            // Only the page behind the cautions has a form to answer by; what is counted below is counted once all of it is there.
            string step = (await page.Locator("main form[action*='/answer'] input[name=step]").First.GetAttributeAsync("value"))!;
            await page.WaitForLoadStateAsync(LoadState.DOMContentLoaded);
            StepKind kind = WireName.Words<StepKind>().Single(word => word.Key == step).Value;
            // A walk is asked for once, with all its stretches on one plan; each is answered.
            string[] pieces = [.. ((string[])["", "-2", "-3"]).Take(await page.Locator("main form input[name^='fromM']").CountAsync() is var count and > 0 ? count : 1)];
            if (kind == StepKind.Look)
            {
                Assert.DoesNotContain(nameof(StepKind.Look), steps);
                await Expect(page.Locator(".plan")).ToHaveCountAsync(1);
                await Expect(page.Locator(".plan .place")).ToHaveCountAsync(pieces.Length);
                await Expect(page.Locator(".plan .piece")).ToHaveCountAsync(pieces.Length > 1 ? pieces.Length : 0);
                walked = pieces.Length;
            }

            foreach (string piece in pieces)
            {
                double? from = await MetresInAsync(page.Locator("main"), "atM", "name") ?? await MetresInAsync(page.Locator("main"), $"fromM{piece}", "name"), to = await MetresInAsync(page.Locator("main"), $"toM{piece}", "name");
                foreach (StepField field in WalkTexts.Fields(kind))
                {
                    ILocator input = page.Locator($"main form input[name='{field.Name}{piece}']");
                    if (await input.CountAsync() == 0 || joint.Answer(kind, field, from, to) is not { } answer || await input.First.GetAttributeAsync("type") == "hidden")
                    {
                        continue;
                    }

                    if (answer == "OL")
                    {
                        await hand.TickAsync(page.Locator($"main input[name='{field.Name}-over']"));
                    }
                    else if (field.Type == StepFieldType.Number)
                    {
                        await hand.FillAsync(input, answer);
                    }
                    else
                    {
                        await hand.PickAsync(page.Locator($"main input[name='{field.Name}{piece}'][value='{answer}']"));
                    }
                }
            }

            await hand.TapAsync(page.Locator("main form button.main"));
            await Expect(page.Locator("#news")).ToBeVisibleAsync();
            await page.WaitForLoadStateAsync(LoadState.DOMContentLoaded); // whether there is another question stands below it
            steps.Add(kind.ToString());
        }

        Record($"owner {texts.Language}", $"owner's link, 390 x 844, {texts.Language}: {steps.Count} questions, {hand.Counted}; {string.Join(", ", steps)}; a walk of {walked} stretches");
        Assert.InRange(steps.Count, 1, 6);
        Assert.True(walked > 1, "The walk has one stretch only, where two joints may be broken.");
        await page.Context.CloseAsync();
    }

    private async Task<(IPage Page, CountingHand Hand)> DeskAsync(string locale)
    {
        IPage page = await app.DeviceAsync(locale: locale);
        await app.SignInAsync(page.Context);
        await page.GotoAsync(app.Root);
        await Expect(page.Locator(".saved-sign.arrived")).ToBeVisibleAsync();
        return (page, new(page, byTouch: false));
    }

    private static async Task<double?> MetresInAsync(ILocator form, string field, string attribute = "id")
    {
        ILocator input = form.Locator(attribute == "id" ? $"input[id$='-{field}']" : $"input[name='{field}']");
        return await input.CountAsync() > 0 && await input.InputValueAsync() is { Length: > 0 } typed ? double.Parse(typed.Replace(',', '.'), CultureInfo.InvariantCulture) : null;
    }

    private async Task<(Guid Yard, Guid Case)> CaseAsync(string name)
    {
        string yardFile = await File.ReadAllTextAsync(Path.Combine(PublishedBuild.Root(), "examples", "sorrel-corner.yard.json"), TestContext.Current.CancellationToken);
        Guid yard = await app.AddAsync("yard", new { name, file = JsonSerializer.Deserialize<JsonElement>(yardFile) });
        Guid @case = await app.AddAsync("case", new { yard, state = "visit-planned", complaint = "no signal, the station shows an alarm" });
        return (yard, @case);
    }

    private static async Task TypeAsync(CountingHand hand, IPage page, WalkTexts texts, StepKind kind, BrokenJoint joint, GardenScreen screen)
    {
        (double? from, double? to) = await PlaceAsync(page);
        StepField field = texts.FieldOf(kind, screen.Question);
        string? answer = joint.Answer(kind, field, from, to);
        if (answer is null)
        {
            await hand.TapAsync(page.Locator(".garden-asked > .row button").Last);
            return;
        }

        if (answer == "OL")
        {
            await hand.TapAsync(page.Locator(".pad-keys button[aria-label^='OL']"));
        }
        else
        {
            foreach (char key in answer)
            {
                await hand.DigitAsync(page.Locator(".pad-keys button").Filter(new() { HasTextRegex = new(key == '.' ? "^[.,]$" : $"^{key}$") }));
            }
        }

        await hand.TapAsync(page.Locator(".pad-done"));
        if (kind == StepKind.SplitResistance && field.Name == "ohmsB")
        {
            joint.Done(kind, from, to);
        }
    }

    /// <summary>Waits until the engine has thought and the garden shows something to do, and goes on showing it as long as a person looks before touching.</summary>
    private static async Task<GardenScreen> GardenScreenAsync(IPage page)
    {
        // One look: a screen is read in the same turn in which it is found to be one, or it is none yet. While an answer is being kept it is still the old one.
        const string Look =
            $$"""
            () => {
                const garden = document.querySelector(".garden"), one = css => garden?.querySelector(css), big = garden?.querySelectorAll(".garden-hand > button.big").length ?? 0;
                const screen = {
                    mark: {{Mark}}, heading: one("h1")?.textContent ?? "", question: (one(".pad h2") ?? one("#question"))?.textContent ?? "",
                    boxes: document.querySelectorAll(".garden .cautions input:not(:checked)").length, isOpening: !!one(".garden-opening"),
                    isClosed: !!one(".garden-hand a[href='']"), isFinished: !one("#garden-step") && big > 1,
                    hasClosing: !!one(".verdict"), isPad: !!one(".pad"), hasAnswers: !!one(".garden-answers") && !one(".cautions"), hasHow: !!one(".how"),
                };
                return garden?.ariaBusy === "true" ? null : screen.isClosed || screen.isFinished || one("#garden-step ~ :is(.garden-opening, .cautions, .garden-asked, .how)") ? screen : null;
            }
            """;
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(ServedApp.Patience));
        GardenScreen? seen = null;
        while (true)
        {
            GardenScreen? screen = await page.EvaluateAsync<GardenScreen?>(Look);
            if (screen is not null && screen == seen)
            {
                return screen;
            }

            seen = screen;
            await Task.Delay(250, patience.Token);
        }
    }

    // What tells one screen from the next: the step and its place, the question, whether there are cautions to tick, what was recorded last.
    private const string Mark = "[...document.querySelectorAll('.garden :is(h1, h2, #question, .garden-place, .garden-recorded p, fieldset legend, .how)')].map(part => part.textContent).join('|') + document.querySelectorAll('.garden .cautions input:not(:checked)').length";

    private static Task ChangedAsync(IPage page, GardenScreen before) =>
        OwnerPage.UntilAsync(page, $"{Mark} !== {JsonSerializer.Serialize(before.Mark)}");

    /// <summary>Where the step is, by the facts under the strip (m from A).</summary>
    private static async Task<(double? From, double? To)> PlaceAsync(IPage page)
    {
        string words = await page.EvaluateAsync<string>("() => document.querySelectorAll('.sw-facts dt').length > 2 ? document.querySelectorAll('.sw-facts dd')[1].textContent : ''");
        Match metres = Metres().Match(words);
        return (Number(metres.Groups[1]), Number(metres.Groups[2]));

        static double? Number(Group group) => group.Success ? double.Parse(group.Value.Replace(',', '.'), CultureInfo.InvariantCulture) : null;
    }

    private void Record(string name, string line)
    {
        output.WriteLine(line);
        if (Environment.GetEnvironmentVariable("SWARDLOOP_WALKS") is { Length: > 0 } folder)
        {
            File.WriteAllText(Path.Combine(folder, $"{name}.txt"), line + "\n");
        }
    }

    // "37.1 m: at joint 2", "36 to 38 m: past joint 2": the place along the wire comes before its words.
    [GeneratedRegex(@"^\s*(\d+(?:[.,]\d+)?)(?: m)?(?: ?(?:to|bis|–|-) ?(\d+(?:[.,]\d+)?))?")]
    private static partial Regex Metres();

    private sealed record GardenScreen
    {
        public string Heading { get; init; } = "";

        public string Question { get; init; } = "";

        public string Mark { get; init; } = "";

        public int Boxes { get; init; }

        public bool IsOpening { get; init; }

        public bool IsClosed { get; init; }

        public bool IsFinished { get; init; }

        public bool HasClosing { get; init; }

        public bool IsPad { get; init; }

        public bool HasAnswers { get; init; }

        public bool HasHow { get; init; }
    }
}
