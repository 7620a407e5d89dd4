using Bunit;
using Swardloop.Client.Places;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Places;

public class CasePlaceTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Instructions_appear_only_when_every_caution_is_ticked()
    {
        using Scene scene = new();
        IRenderedComponent<CasePlace> place = await OpenAsync(scene);
        await place.WaitForAssertionAsync(() => place.Find(".step"), Patience);

        while (place.FindAll(".cautions input").Any(box => !box.HasAttribute("checked")))
        {
            Assert.Empty(place.FindAll(".how"));
            await place.OnAsync(".cautions input:not([checked])", box => box.ChangeAsync(new() { Value = true }));
        }

        Assert.NotEmpty(place.FindAll(".how li"));
    }

    [Fact]
    public async Task What_was_ticked_at_the_desk_is_recorded_with_who_and_when_and_asked_again_for_the_next_doing()
    {
        using Scene scene = new();
        IRenderedComponent<CasePlace> place = await OpenAsync(scene);
        await place.WaitForAssertionAsync(() => place.Find(".step"), Patience);
        while (place.FindAll(".cautions input").Any(box => !box.HasAttribute("checked")))
        {
            await place.OnAsync(".cautions input:not([checked])", box => box.ChangeAsync(new() { Value = true }));
        }

        Assert.Empty(place.FindAll(".known .ticked"));
        await place.OnAsync(() => place.FindAll(".step button").Single(button => button.TextContent.Trim() == "It could not be done"), button => button.ClickAsync(new()));

        RecordState observation = await LastAsync(scene);
        System.Text.Json.JsonElement reading = observation.Value("reading")!.Value;
        Core.Diagnosis.StepKind step = Model.Cases.WireName.Words<Core.Diagnosis.StepKind>().Single(word => word.Key == (reading.TryGetProperty("test", out System.Text.Json.JsonElement done) ? done : reading.GetProperty("repair")).GetString()).Value;
        System.Text.Json.JsonElement[] ticked = [.. reading.GetProperty("ticked").EnumerateArray()];
        Assert.Equal(Core.Diagnosis.StepCautions.Required(step).Select(Model.Cases.WireName.Of).Order(), ticked.Select(tick => tick.GetProperty("caution").GetString()!).Order());
        Assert.All(ticked, tick => Assert.Equal(scene.Device.Me!.Name, tick.GetProperty("by").GetString()));
        Assert.All(ticked, tick => Assert.True((scene.Device.Now - tick.GetProperty("at").GetDateTimeOffset()).Duration() < TimeSpan.FromMinutes(5)));

        // It stands with the entry, and the card asks again.
        await place.WaitForAssertionAsync(() => Assert.Contains($"{ticked.Length} caution", place.Find(".known .ticked summary").TextContent, StringComparison.Ordinal), Patience);
        Assert.DoesNotContain(place.FindAll(".step .cautions input"), box => box.HasAttribute("checked"));
    }

    [Fact]
    public async Task What_was_ticked_goes_with_the_result_of_its_own_step_only()
    {
        using Scene scene = new();
        IRenderedComponent<CasePlace> place = await OpenAsync(scene);
        await place.WaitForAssertionAsync(() => place.Find(".step"), Patience);
        await place.OnAsync(".cautions input", box => box.ChangeAsync(new() { Value = true }));
        await place.OnAsync(() => place.FindAll("button").Single(button => button.TextContent.Trim() == "Add an observation"), button => button.ClickAsync(new()));
        place.WaitForElement("dialog form input[inputmode=decimal]");
        await place.OnAsync("dialog form input[inputmode=decimal]", input => input.InputAsync(new() { Value = "61" }));
        await place.OnAsync("dialog form", form => form.SubmitAsync());

        Assert.False((await LastAsync(scene)).Value("reading")!.Value.TryGetProperty("ticked", out _));
    }

    [Fact]
    public async Task Slider_stands_where_the_newest_reading_puts_it_until_a_person_moves_it()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 20 }""");
        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));
        IRenderedComponent<Drawing.YardPicture> picture = place.FindComponent<Drawing.YardPicture>();
        double first = picture.Instance.ExtraOhms;
        Assert.Equal(first, picture.Instance.TodayOhms!.Value);
        Assert.InRange(first, 10, 20);

        await ReadAsync(60);
        await place.WaitForAssertionAsync(() => Assert.Equal(first + 40, picture.Instance.ExtraOhms, 1e-6), Patience);

        // Moved by hand it stays, and only the mark of today goes on.
        await picture.InvokeAsync(() => picture.Instance.ExtraOhmsChanged.InvokeAsync(5));
        await ReadAsync(90);
        await place.WaitForAssertionAsync(() => Assert.Equal(first + 70, picture.Instance.TodayOhms!.Value, 1e-6), Patience);
        Assert.Equal(5, picture.Instance.ExtraOhms);

        Task ReadAsync(double ohms) => scene.OnPageAsync(() => scene.Device.KeepAsync(
            [Client.Cases.CaseView.Observe(scene.Device.Replica, yard, id, Client.Device.Json.Parse($$"""{ "test": "loop-resistance", "ohms": {{ohms}} }"""), null, scene.Device.Now)]));
    }

    [Fact]
    public async Task First_line_names_cause_and_next_step_and_the_markers_say_what_to_do_there()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "value": "over-range" }""", """{ "test": "end-capacitance", "nanofaradA": 9.8, "nanofaradB": 7.3 }""");
        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => Assert.Contains("Next: ", place.Find(".case-answer").TextContent, StringComparison.Ordinal), Patience);

        string answer = place.Find(".case-answer").TextContent, step = place.Find(".step h3").TextContent;
        Assert.Contains("roken wire", answer, StringComparison.Ordinal);
        Assert.Contains(place.Find(".where .title").TextContent, answer, StringComparison.OrdinalIgnoreCase);
        Assert.Contains(step, answer, StringComparison.Ordinal);
        IRenderedComponent<Drawing.YardPicture> picture = place.FindComponent<Drawing.YardPicture>();
        Core.Diagnosis.StepKind kind = StepOf(step);
        Assert.Equal(Client.Wording.Speech.Capital(scene.Speech.Texts.DoHere(kind)), picture.Instance.ToDo);
    }

    private static Core.Diagnosis.StepKind StepOf(string title) =>
        Core.Diagnosis.StepCatalogue.All.Single(facts => Model.Steps.StepTexts.English[facts.Kind].Title == title).Kind;

    private static async Task<RecordState> LastAsync(Scene scene)
    {
        await scene.UntilAsync(() => scene.Device.Replica.OfKind(RecordKind.Observation).Count() > 1);
        return scene.Device.Replica.OfKind(RecordKind.Observation).MaxBy(each => each.Id)!;
    }

    [Fact]
    public async Task Observation_is_added_struck_out_and_stays_readable()
    {
        using Scene scene = new();
        IRenderedComponent<CasePlace> place = await OpenAsync(scene);
        RecordState observation = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Observation));

        await scene.ChangeAsync(observation.Id, RecordKind.Observation, ("struck", Client.Device.Json.Text("wrong yard")));

        await place.WaitForAssertionAsync(() => Assert.Contains("wrong yard", place.Find(".known .gone").TextContent, StringComparison.Ordinal), Patience);
    }

    [Fact]
    public async Task Causes_are_said_in_words_and_per_cent()
    {
        using Scene scene = new();
        IRenderedComponent<CasePlace> place = await OpenAsync(scene);

        await place.WaitForAssertionAsync(() => Assert.NotEmpty(place.FindAll(".bar-value")), Patience);
        Assert.All(place.FindAll(".bar-value"), bar => Assert.Matches(@"\w+, .*\d %", bar.TextContent));
    }

    [Fact]
    public async Task Complaint_shows_what_its_words_weigh_and_nothing_where_they_say_nothing()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard);
        await scene.ChangeAsync(id, RecordKind.Case, ("complaint", Client.Device.Json.Text("lamp dark, mower dead")));
        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));

        await place.WaitForAssertionAsync(() => place.Find(".complaint"), Patience);
        Assert.StartsWith("Lamp dark, mower dead", place.Find(".complaint p").TextContent, StringComparison.Ordinal);
        Assert.Contains(place.FindAll(".complaint .weights li"), weight => weight.TextContent.Contains(" times as likely", StringComparison.Ordinal));
        Assert.Contains(place.FindAll(".complaint .weights li"), weight => weight.TextContent.Contains(" times less likely", StringComparison.Ordinal));

        await scene.ChangeAsync(id, RecordKind.Case, ("complaint", Client.Device.Json.Text("no idea why")));
        await place.WaitForAssertionAsync(() => Assert.Empty(place.FindAll(".complaint")), Patience);
    }

    [Fact]
    public async Task Closing_opens_at_once_and_the_cause_that_the_repair_ended_follows()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "value": "over-range" }""",
            """{ "repair": "mend-span", "fromM": 30, "toM": 32 }""", """{ "test": "mower-check", "value": "runs" }""");
        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));

        await place.InvokeAsync(() => place.FindAll("button").Single(button => button.TextContent.Trim() == "Close the case").Click());
        Assert.Equal("31", place.Find("dialog input").GetAttribute("value"));
        await place.WaitForAssertionAsync(() => Assert.Equal("open", place.Find("dialog select").GetAttribute("value")), Patience);
        Assert.Empty(place.FindAll("dialog [role=status]"));
    }

    [Fact]
    public async Task Reader_sees_everything_and_can_change_nothing()
    {
        FakeWorkshop workshop = new();
        using Scene scene = new(workshop);
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "station-lamp", "value": "normal" }""");
        workshop.Me = workshop.Me with { Role = Workshop.Api.Role.Reader };
        await scene.OnPageAsync(scene.Device.AskWhoAsync);

        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));
        await place.WaitForAssertionAsync(() => place.Find(".step"), Patience);

        Assert.DoesNotContain(place.FindAll("button"), button => button.TextContent.Trim() is "Add an observation" or "Enter the result" or "Strike out" or "Correct" or "Close the case");
    }

    private static async Task<IRenderedComponent<CasePlace>> OpenAsync(Scene scene)
    {
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 338, "leadOhms": 0.3 }""");
        return scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));
    }
}
