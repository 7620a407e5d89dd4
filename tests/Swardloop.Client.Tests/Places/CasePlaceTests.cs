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
