using System.Text.Json;
using AngleSharp.Dom;
using Bunit;
using Swardloop.Client.Garden;
using Swardloop.Client.Places;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Steps;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Places;

public class GardenPlaceTests
{
    private const string OpenLoop = """{ "test": "loop-resistance", "value": "over-range", "leadOhms": 0.3 }""";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Cautions_come_before_the_first_instruction_and_stay_ticked_when_the_page_dies()
    {
        using Scene scene = new();
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        Assert.Empty(place.FindAll(".how, .pad, .garden-answers"));

        await HeedAsync(place);
        Assert.NotEmpty(place.FindAll(".how li"));
        string step = place.Find("h1").TextContent;

        using Scene again = new(scene.Workshop, scene.Page);
        await again.StartAsync();
        IRenderedComponent<GardenPlace> reloaded = again.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await reloaded.WaitForAssertionAsync(() => reloaded.Find(".how li"), Patience);
        Assert.Equal(step, reloaded.Find("h1").TextContent);
    }

    [Fact]
    public async Task Step_is_answered_by_touch_recorded_once_and_the_next_one_comes()
    {
        using Scene scene = new();
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        string first = place.Find("h1").TextContent;
        int before = Observations(scene, id);

        await AnswerAsync(place);

        await place.WaitForAssertionAsync(() => Assert.Equal(before + 1, Observations(scene, id)), Patience);
        await place.WaitForAssertionAsync(() => Assert.NotEmpty(place.FindAll(".garden-recorded")), Patience);
        await place.WaitForAssertionAsync(() => Assert.NotEqual(first, place.Find("h1").TextContent), Patience);
        Assert.DoesNotContain($"garden-{id}", scene.Page.Drafts.Keys);
    }

    [Fact]
    public async Task Cautions_of_the_visit_are_ticked_once_stay_in_sight_and_are_recorded_with_who_and_when()
    {
        using Scene scene = new();
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        Assert.Empty(place.FindAll(".garden-visit"));
        // All that opens a visit, under one box.
        Assert.Single(place.FindAll(".garden-opening .cautions input"));
        Assert.Equal(VisitTicks.Opening.Count, place.FindAll(".garden-opening .cautions li").Count);
        await PressAsync(place, () => place.Find(".garden-opening input"));
        Assert.Empty(place.FindAll(".garden-opening"));

        await AnswerAsync(place);
        await place.WaitForAssertionAsync(() => Assert.NotEmpty(place.FindAll(".garden-recorded")), Patience);
        await place.WaitForAssertionAsync(() => place.Find(".garden-visit"), Patience);

        // One line, and all of it behind: what the visit and the steps before have settled of what this step needs.
        int held = place.FindAll(".garden-visit li").Count;
        Assert.EndsWith($"no thunder, {held - 1} more", place.Find(".garden-visit summary").TextContent.Trim(), StringComparison.Ordinal);
        Caution[] mayHold = [.. Enum.GetValues<Caution>().Where(StepCautions.HoldsForVisit)];
        Assert.InRange(held, 2, mayHold.Length);
        Assert.All(place.FindAll(".garden-visit li"), line => Assert.Contains(mayHold, caution => line.TextContent.StartsWith(StepTexts.English[caution], StringComparison.Ordinal)));
        Assert.DoesNotContain(place.FindAll(".cautions"), boxes => boxes.TextContent.Contains("Thunder", StringComparison.Ordinal));
        RecordState observation = scene.Device.Replica.OfKind(RecordKind.Observation).Last(each => each.Reference("case") == id && each.Value("reading")!.Value.TryGetProperty("ticked", out _));
        JsonElement[] ticked = [.. observation.Value("reading")!.Value.GetProperty("ticked").EnumerateArray()];
        // Of all that the step requires, by whom and when: what was ticked for the visit, and what was ticked for it.
        Assert.Equal(
            StepCautions.Required(KindOf(observation)).Select(caution => WireName.Of(caution)),
            ticked.Select(tick => tick.GetProperty("caution").GetString()));
        Assert.All(ticked, tick =>
        {
            Assert.True(DateTimeOffset.TryParse(tick.GetProperty("at").GetString(), System.Globalization.CultureInfo.InvariantCulture, out _));
            Assert.Equal(scene.Device.Me!.Name, tick.GetProperty("by").GetString());
        });
    }

    [Fact]
    public async Task What_cannot_be_met_for_the_visit_is_left_out_and_asked_for_by_the_steps_that_need_it()
    {
        using Scene scene = new();
        (_, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);

        await PressAsync(place, "One of these cannot be met");
        Assert.Equal(VisitTicks.Opening.Count, place.FindAll(".garden-opening .cautions input").Count);
        Assert.True(place.FindAll("button").Single(button => button.TextContent == "Go on").HasAttribute("disabled"));
        for (int box = 0; box < VisitTicks.Opening.Count; box++)
        {
            if (VisitTicks.Opening[box] != Caution.NoLiveElectricFence)
            {
                await PressAsync(place, () => place.FindAll(".garden-opening .cautions input")[box]);
            }
        }

        await PressAsync(place, "Go on");
        Assert.Empty(place.FindAll(".garden-opening"));
        await ChooseAsync(place, Caution.NoLiveElectricFence);
        Assert.Contains("electric fence", place.Find(".cautions").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("Thunder", place.Find(".cautions").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("fence", place.Find(".garden-visit").TextContent, StringComparison.Ordinal);
        Assert.Contains(StepTexts.English[Caution.MowerIsolated], place.Find(".garden-visit").TextContent, StringComparison.Ordinal);
        Assert.Empty(place.FindAll(".how"));
    }

    [Fact]
    public async Task Mower_that_was_run_or_may_have_been_is_isolated_again_and_the_station_unplugged_again()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "repair": "remake-terminals" }""");
        IRenderedComponent<GardenPlace> place = scene.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => place.Find(".garden-opening"), Patience);
        await PressAsync(place, () => place.Find(".garden-opening input"));
        await ChooseAsync(place, Caution.ClearOfRunningMower);
        Assert.Single(place.FindAll(".cautions input")); // what runs and what is carried: one danger
        Assert.True(place.FindAll(".cautions li").Count > 1);
        await HeedAsync(place);
        Assert.NotEmpty(place.FindAll(".how"));
        Assert.Contains(StepTexts.English[Caution.MowerIsolated], place.Find(".garden-visit").TextContent, StringComparison.Ordinal);

        // Begun, then left for another step: it may have run.
        await ChooseAsync(place, Caution.MowerIsolated, Caution.ClearOfRunningMower);
        Assert.Empty(place.FindAll(".garden-opening"));
        Assert.DoesNotContain(StepTexts.English[Caution.MowerIsolated], place.FindAll(".garden-visit").SingleOrDefault()?.TextContent ?? "", StringComparison.Ordinal);
        Assert.Contains("Mower off, and its key or battery out", place.Find(".cautions").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_an_owner_might_do_is_done_by_us_in_the_garden()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid id = await scene.AddCaseAsync(await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"));
        IRenderedComponent<GardenPlace> place = scene.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => place.Find(".cautions"), Patience);

        await AnswerAsync(place);

        await place.WaitForAssertionAsync(() => Assert.Equal(1, Observations(scene, id)), Patience);
        JsonElement reading = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Observation)).Value("reading")!.Value;
        Assert.False(reading.TryGetProperty("by", out JsonElement by) && by.ValueEquals("owner"));
        Assert.Equal("loop-resistance - - - - - technician", GardenDraft.Read(
            """{"step":"loop-resistance - - - - - owner","at":"2026-05-14T09:00:00+02:00","question":0,"pad":"4.1","values":{},"photos":[],"heeded":[]}""", default).Step);
    }

    [Fact]
    public async Task Photo_taken_at_a_step_is_of_the_case_until_the_answer_and_then_of_the_observation()
    {
        using Scene scene = new();
        scene.Page.Camera = new([1, 2, 3], [1], DateTimeOffset.UnixEpoch);
        scene.Page.Position = new(54.2, -3.1, 5);
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        await HeedAsync(place);

        await PressAsync(place, () => place.Find(".photo-take input"));
        RecordState photo = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Photo));
        Assert.Equal(id, photo.Reference("of"));
        Assert.Null(photo.Value("position"));
        Assert.Equal([1, 2, 3], scene.Page.Photos[$"{photo.Id} large"]);

        await AnswerAsync(place);

        await place.WaitForAssertionAsync(
            () => Assert.Equal(RecordKind.Observation, scene.Device.Replica[scene.Device.Replica[photo.Id]!.Reference("of")!.Value]!.Kind), Patience);
        await scene.UntilAsync(() => scene.Workshop.Photos.ContainsKey(photo.Id) && !scene.Device.Replica.IsPhotoWaiting(photo.Id));
        Assert.Equal(1, scene.Workshop.PhotosPut);
    }

    [Fact]
    public async Task Step_that_cannot_be_done_now_gives_way_to_another_of_the_advised()
    {
        using Scene scene = new();
        (_, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        await HeedAsync(place);
        string first = place.Find("h1").TextContent;

        await PressAsync(place, "Can't be done now");
        string chosen = place.Find("dialog .choice b").TextContent;
        await PressAsync(place, () => place.FindAll("dialog .choice")[0]);

        Assert.Equal(chosen, place.Find("h1").TextContent);
        Assert.NotEqual(first, chosen);
    }

    [Fact]
    public async Task Place_photo_and_what_else_can_be_done_stand_above_the_cautions()
    {
        using Scene scene = new();
        (_, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        await PressAsync(place, () => place.Find(".garden-opening input"));
        await PressAsync(place, "Can't be done now");
        HashSet<string> placed = [.. place.FindAll("dialog .choice").Where(choice => choice.QuerySelector("span > span:not(.small)") is not null).Select(choice => choice.QuerySelector("b")!.TextContent)];
        Assert.True(await PressAsync(place, () => place.FindAll("dialog .choice").First(choice => placed.Contains(choice.QuerySelector("b")!.TextContent))));

        string[] order = [.. place.FindAll(".garden > :is(.garden-place, .garden-rest, .cautions)").Select(part => part.ClassName!.Split(' ')[^1])];
        Assert.Equal(["garden-place", "garden-rest", "cautions"], order);
        Assert.NotEmpty(place.FindAll(".garden-rest .photo-take"));
        Assert.Contains("Can't be done now", place.Find(".garden-rest").TextContent, StringComparison.Ordinal);
        Assert.Contains(place.FindAll(".garden > button"), button => button.TextContent == "One of these cannot be met");
    }

    [Fact]
    public async Task Any_entry_is_corrected_from_the_list_not_only_the_last()
    {
        using Scene scene = new();
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        await AnswerAsync(place);
        await place.WaitForAssertionAsync(() => Assert.NotEmpty(place.FindAll(".garden-recorded")), Patience);
        RecordState first = scene.Device.Replica.OfKind(RecordKind.Observation).Where(each => each.Reference("case") == id).MinBy(each => each.Id)!;

        await PressAsync(place, "All entries");
        await PressAsync(place, () => place.FindAll("dialog li")[^1].QuerySelectorAll("button").First(button => button.TextContent == "Correct"));
        place.WaitForElement("dialog form input[inputmode=decimal]");
        await place.OnAsync("dialog form input[inputmode=decimal]", input => input.InputAsync(new() { Value = "61" }));
        await place.OnAsync("dialog form", form => form.SubmitAsync());

        await place.WaitForAssertionAsync(
            () => Assert.Contains(scene.Device.Replica.OfKind(RecordKind.Observation), each => each.Reference("corrects") == first.Id), Patience);
    }

    [Fact]
    public async Task What_could_not_be_done_is_an_observation_struck_out_and_counted_again()
    {
        using Scene scene = new();
        (Guid id, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        await HeedAsync(place);
        int before = Observations(scene, id);

        await PressAsync(place, "Can't be done now");
        await PressAsync(place, "It could not be done");
        await place.WaitForAssertionAsync(() => Assert.Equal(before + 1, Observations(scene, id)), Patience);
        RecordState entry = scene.Device.Replica.OfKind(RecordKind.Observation).Single(each => each.Value("reading")!.Value.TryGetProperty("value", out JsonElement value) && value.ValueEquals("not-done"));

        await place.WaitForAssertionAsync(() => place.Find(".garden-recorded"), Patience);
        await PressAsync(place, "All entries");
        await PressAsync(place, "Strike out");
        Assert.NotNull(scene.Device.Replica[entry.Id]!.Text("struck"));
        await PressAsync(place, "Count it again");
        Assert.Null(scene.Device.Replica[entry.Id]!.Text("struck"));
    }

    [Fact]
    public async Task Screen_is_kept_awake_until_the_place_is_left()
    {
        using Scene scene = new();
        (_, IRenderedComponent<GardenPlace> place) = await OpenAsync(scene);
        Assert.True(scene.Page.IsAwake);

        await scene.Browser.DisposeComponentsAsync();

        Assert.False(scene.Page.IsAwake);
    }

    [Fact]
    public async Task Running_mower_is_proved_by_a_last_reading_before_the_case_is_closed()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "repair": "remake-terminals" }""", """{ "test": "mower-check", "value": "runs" }""");
        IRenderedComponent<GardenPlace> place = scene.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => Assert.Contains(place.FindAll("button"), button => button.TextContent == "Take the last reading"), Patience);

        await PressAsync(place, "Take the last reading");
        await HeedAsync(place);
        await PressAsync(place, "Enter the result");
        foreach (string key in (string[])["0", ".", "3", "OK", "4", ".", "1"]) // the leads first, once a visit
        {
            await PressAsync(place, key);
        }

        Assert.Contains("less leads", place.Find(".pad").TextContent, StringComparison.Ordinal);
        await PressAsync(place, "OK");

        await place.WaitForAssertionAsync(() => Assert.Matches(@"Last reading: \d", place.Markup), Patience);
        await PressAsync(place, "Close the case");
        Assert.NotEmpty(place.FindAll("dialog select"));
    }

    [Fact]
    public async Task Reader_sees_the_step_and_has_nothing_to_press_that_writes()
    {
        FakeWorkshop workshop = new();
        using Scene scene = new(workshop);
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, OpenLoop);
        workshop.Me = workshop.Me with { Role = Workshop.Api.Role.Reader };
        await scene.OnPageAsync(scene.Device.AskWhoAsync);
        IRenderedComponent<GardenPlace> place = scene.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => place.Find(".cautions"), Patience);

        await HeedAsync(place);

        Assert.Empty(place.FindAll(".garden-hand .main, .garden-answers, .photo-take"));
    }

    private static StepKind KindOf(RecordState observation) =>
        WireName.Words<StepKind>().Single(word => word.Key == observation.Value("reading")!.Value.GetProperty("test").GetString()).Value;

    private static int Observations(Scene scene, Guid id) => scene.Device.Replica.OfKind(RecordKind.Observation).Count(observation => observation.Reference("case") == id);

    /// <summary>Finds something and presses it in one turn: the place may be drawn again at any moment.</summary>
    /// <returns>Whether it was there.</returns>
    private static async Task<bool> PressAsync(IRenderedComponent<GardenPlace> place, Func<IElement?> find)
    {
        bool wasThere = false;
        await place.InvokeAsync(async () =>
        {
            if (find() is { } element)
            {
                wasThere = true;
                await (element.LocalName == "input" ? element.ChangeAsync(new() { Value = true }) : element.ClickAsync(new()));
            }
        });
        return wasThere;
    }

    private static Task<bool> PressAsync(IRenderedComponent<GardenPlace> place, string selector, string? words) =>
        PressAsync(place, () => place.FindAll(selector).FirstOrDefault(each => words is null || each.TextContent == words));

    private static async Task PressAsync(IRenderedComponent<GardenPlace> place, string words) =>
        Assert.True(await PressAsync(place, () => place.FindAll("button").First(button => button.TextContent.Trim() == words)));

    private static async Task HeedAsync(IRenderedComponent<GardenPlace> place)
    {
        while (await PressAsync(place, () => place.FindAll(".cautions input").FirstOrDefault(box => !box.HasAttribute("checked"))))
        {
        }
    }

    /// <summary>Answers whatever is asked, as a person who touches the first thing there is.</summary>
    private static async Task AnswerAsync(IRenderedComponent<GardenPlace> place)
    {
        await HeedAsync(place);
        string step = Shown();
        await PressAsync(place, ".garden-hand > .main", null);
        while (Shown() == step && (await PressAsync(place, ".garden-answers button", null)
            || (await PressAsync(place, ".pad-keys button", "7")
                && await PressAsync(place, ".pad-done", null))))
        {
        }

        // What was recorded last, and the step: the next one may need nothing ticked.
        string Shown() => string.Join('|', place.FindAll("h1, .garden-recorded p").Select(each => each.TextContent));
    }

    /// <summary>Has a step in hand that requires one caution and not another, from those advised.</summary>
    private static async Task ChooseAsync(IRenderedComponent<GardenPlace> place, Caution requires, Caution? andNot = null)
    {
        HashSet<string> titles =
        [
            .. StepCatalogue.All.Select(facts => facts.Kind).Where(kind => StepCautions.Required(kind).Contains(requires) && !(andNot is { } not && StepCautions.Required(kind).Contains(not)))
                .Select(kind => StepTexts.English[kind].Title),
        ];
        if (!titles.Contains(place.Find("h1").TextContent))
        {
            await PressAsync(place, "Can't be done now");
            Assert.True(await PressAsync(place, () => place.FindAll("dialog .choice").First(choice => titles.Contains(choice.QuerySelector("b")!.TextContent))));
        }
    }

    private static async Task<(Guid Case, IRenderedComponent<GardenPlace> Place)> OpenAsync(Scene scene)
    {
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, OpenLoop);
        IRenderedComponent<GardenPlace> place = scene.Browser.Render<GardenPlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => place.Find(".cautions"), Patience);
        return (id, place);
    }
}
