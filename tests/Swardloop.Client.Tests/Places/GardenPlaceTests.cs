using System.Text.Json;
using AngleSharp.Dom;
using Bunit;
using Swardloop.Client.Garden;
using Swardloop.Client.Places;
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
        int first = place.FindAll(".cautions input").Count;

        await AnswerAsync(place);
        await place.WaitForAssertionAsync(() => Assert.NotEmpty(place.FindAll(".garden-recorded")), Patience);
        await place.WaitForAssertionAsync(() => place.Find(".garden-visit"), Patience);

        Assert.Contains("no thunder", place.Find(".garden-visit summary").TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(place.FindAll(".cautions label"), box => box.TextContent.Contains("Thunder", StringComparison.Ordinal));
        RecordState observation = scene.Device.Replica.OfKind(RecordKind.Observation).Last(each => each.Reference("case") == id && each.Value("reading")!.Value.TryGetProperty("ticked", out _));
        JsonElement[] ticked = [.. observation.Value("reading")!.Value.GetProperty("ticked").EnumerateArray()];
        Assert.Equal(first, ticked.Length);
        Assert.All(ticked, tick =>
        {
            Assert.True(DateTimeOffset.TryParse(tick.GetProperty("at").GetString(), System.Globalization.CultureInfo.InvariantCulture, out _));
            Assert.Equal(scene.Device.Me!.Name, tick.GetProperty("by").GetString());
        });
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
        await PressAsync(place, ".garden-hand > .main", null);
        while (await PressAsync(place, ".garden-answers button", null)
            || (await PressAsync(place, ".pad-keys button", "7")
                && await PressAsync(place, ".pad-done", null)))
        {
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
