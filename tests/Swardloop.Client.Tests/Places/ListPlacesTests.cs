using Bunit;
using Swardloop.Client.Device;
using Swardloop.Client.Places;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Places;

/// <summary>Lists of everything, the first day of a workshop, and the case on paper.</summary>
public class ListPlacesTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    [Fact]
    public async Task Yards_show_their_last_reading_and_none_from_before_a_repair()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid measured = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"), mended = await scene.AddYardAsync("thimble-court.yard.json", "Thimble Court");
        _ = await scene.AddCaseAsync(measured, """{ "test": "loop-resistance", "ohms": 6.7, "leadOhms": 0.2, "at": "2026-05-14T09:00:00+02:00" }""");
        _ = await scene.AddCaseAsync(mended, """{ "test": "loop-resistance", "ohms": 61, "at": "2026-05-14T09:00:00+02:00" }""", """{ "repair": "remake-terminals", "at": "2026-05-14T10:00:00+02:00" }""");

        IRenderedComponent<YardsPlace> place = scene.Browser.Render<YardsPlace>();

        Assert.Equal(["Sorrel Corner", "Thimble Court"], place.FindAll("tbody .title").Select(each => each.TextContent));
        Assert.Contains("6.5 Ω", place.FindAll("tbody tr")[0].TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain("Ω", place.FindAll("tbody tr")[1].TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Closed_cases_are_found_by_state_person_and_telephone_and_put_away_ones_come_back()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid owner = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")), ("phone", Json.Text("020 7946 0018")), ("address", Json.Text("Fen Lane 3, Marsh Hill")));
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        await scene.ChangeAsync(yard, RecordKind.Yard, ("owner", Json.Text(owner.ToString())));
        Guid open = await scene.AddCaseAsync(yard), closed = await scene.AddCaseAsync(yard);
        await scene.ChangeAsync(closed, RecordKind.Case, ("state", Json.Text("closed")), ("assignedTo", Json.Text("Wren")), ("foundCause", Json.Text("bad-joint")));

        IRenderedComponent<CasesPlace> cases = scene.Browser.Render<CasesPlace>();
        Assert.Equal(2, cases.FindAll("tbody tr").Count);
        Assert.Contains("Marsh Hill", cases.Markup, StringComparison.Ordinal);

        await scene.ChangeAsync(open, RecordKind.Case, ("archived", Json.Flag(true)));
        await cases.WaitForAssertionAsync(() => Assert.Single(cases.FindAll("tbody tr")), Patience);
        Assert.Contains("Closed", cases.Find("tbody tr").TextContent, StringComparison.Ordinal);

        IRenderedComponent<RemovedPlace> removed = scene.Browser.Render<RemovedPlace>();
        await removed.OnAsync("tbody button", button => button.ClickAsync(new()));

        // On the page's turn: what is sent and heard meanwhile changes the records.
        await scene.OnPageAsync(() =>
        {
            Assert.False(scene.Device.Replica[open]!.Flag("archived"));
            IReadOnlyList<Workshop.Api.SearchHit> hits = Client.Records.WorkshopSearch.Find(scene.Device.Replica, scene.Speech, "+44 20 7946 0018");
            Assert.Contains(hits, hit => hit.Id == owner);
            Assert.Contains(hits, hit => hit.Id == closed);
            return Task.CompletedTask;
        });
        IRenderedComponent<OwnersPlace> owners = scene.Browser.Render<OwnersPlace>();
        Assert.Equal("Hazel Thimble", owners.Find("tbody .title").TextContent);
    }

    [Fact]
    public async Task Lists_are_narrowed_by_state_person_town_and_words_and_ordered_by_the_last_reading()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid hazel = scene.Device.Replica.NewId(scene.Device.Now), otter = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(hazel, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")), ("address", Json.Text("Fen Lane 3, Marsh Hill")));
        await scene.ChangeAsync(otter, RecordKind.Owner, ("name", Json.Text("Otter Sedge")), ("address", Json.Text("Moorweg 5, 12345 Binsenau")));
        Guid corner = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"), court = await scene.AddYardAsync("thimble-court.yard.json", "Thimble Court");
        await scene.ChangeAsync(corner, RecordKind.Yard, ("owner", Json.Text(hazel.ToString())));
        await scene.ChangeAsync(court, RecordKind.Yard, ("owner", Json.Text(otter.ToString())));
        Guid open = await scene.AddCaseAsync(corner, """{ "test": "loop-resistance", "ohms": 6.7, "at": "2026-05-14T09:00:00+02:00" }""");
        Guid closed = await scene.AddCaseAsync(court, """{ "test": "loop-resistance", "ohms": 9.1, "at": "2026-06-14T09:00:00+02:00" }""");
        await scene.ChangeAsync(open, RecordKind.Case, ("assignedTo", Json.Text("Robin")));
        await scene.ChangeAsync(closed, RecordKind.Case, ("state", Json.Text("closed")), ("assignedTo", Json.Text("Wren")));

        Client.Frame.MainFrame frame = new(); // it holds what lists are narrowed by
        IRenderedComponent<YardsPlace> yards = scene.Browser.Render<YardsPlace>(parameters => parameters.AddCascadingValue(frame));
        Assert.Equal(["Thimble Court", "Sorrel Corner"], await ChosenAsync(yards, "newest"));
        Assert.Equal(["Sorrel Corner", "Thimble Court"], await ChosenAsync(yards, "oldest"));
        Assert.Equal(["Sorrel Corner"], await ChosenAsync(yards, "open"));
        Assert.Equal(["Sorrel Corner", "Thimble Court"], await ChosenAsync(yards, "", "open"));
        Assert.Equal(["Thimble Court"], await ChosenAsync(yards, "Binsenau"));

        IRenderedComponent<CasesPlace> cases = scene.Browser.Render<CasesPlace>(parameters => parameters.AddCascadingValue(frame));
        Assert.Equal(["Thimble Court"], await ChosenAsync(cases, "closed"));
        Assert.Equal(["Sorrel Corner"], await ChosenAsync(cases, "not-closed"));
        Assert.Empty(await ChosenAsync(cases, "Wren"));
        await cases.OnAsync("input[type=search]", input => input.InputAsync(new() { Value = "hazel" }));
        Assert.Equal(["Sorrel Corner"], await ChosenAsync(cases, "Robin"));
        await cases.OnAsync("input[type=search]", input => input.InputAsync(new() { Value = "nobody" }));
        Assert.Empty(cases.FindAll("tbody tr"));

        // Chooses a value in whichever choice has it, or the first that has the value named second.
        static async Task<IReadOnlyList<string>> ChosenAsync<T>(IRenderedComponent<T> place, string value, string? beside = null)
            where T : Microsoft.AspNetCore.Components.IComponent
        {
            await place.OnAsync(
                () => place.FindAll("select").First(select => select.QuerySelector($"option[value='{beside ?? value}']") is not null), choice => choice.ChangeAsync(new() { Value = value }));
            return [.. place.FindAll("tbody .title").Select(each => each.TextContent)];
        }
    }

    [Theory]
    [InlineData("Fen Lane 3, Marsh Hill", "Marsh Hill")]
    [InlineData("Fen Lane 3\nCB1 2XY Marsh Hill", "Marsh Hill")]
    [InlineData("Moorweg 5, 12345 Binsenau", "Binsenau")]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void Town_is_the_last_part_of_an_address(string? address, string? town) => Assert.Equal(town, Client.Records.AddressTown.Of(address));

    [Fact]
    public async Task Empty_workshop_shows_three_steps_until_the_first_case()
    {
        using Scene scene = new();
        await scene.StartAsync();
        IRenderedComponent<BenchPlace> bench = scene.Browser.Render<BenchPlace>();
        await bench.WaitForAssertionAsync(() => Assert.Equal(3, bench.FindAll(".first-steps li").Count), Patience);
        Assert.True(bench.FindAll(".first-steps button")[^1].HasAttribute("disabled"));

        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        await bench.WaitForAssertionAsync(() => Assert.False(bench.FindAll(".first-steps button")[^1].HasAttribute("disabled")), Patience);
        _ = await scene.AddCaseAsync(yard);
        await bench.WaitForAssertionAsync(() => Assert.Empty(bench.FindAll(".first-steps")), Patience);
    }

    [Fact]
    public async Task Case_on_paper_has_owner_plan_readings_and_room_to_sign()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid owner = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")), ("phone", Json.Text("01632 960 018")), ("address", Json.Text("Fen Lane 3, Marsh Hill")));
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        await scene.ChangeAsync(yard, RecordKind.Yard, ("owner", Json.Text(owner.ToString())));
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 61 }""");
        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, id));

        AngleSharp.Dom.IElement sheet = place.Find(".case-sheet");
        Assert.Equal(2, sheet.QuerySelectorAll("svg").Length);
        Assert.Contains("61 Ω", sheet.TextContent, StringComparison.Ordinal);
        Assert.Contains("Hazel Thimble 01632 960 018", sheet.TextContent, StringComparison.Ordinal);
        Assert.Contains("Fen Lane 3, Marsh Hill", sheet.TextContent, StringComparison.Ordinal);
        Assert.Contains("Date and signature", sheet.TextContent, StringComparison.Ordinal);
        await place.OnAsync(".print-button", button => button.ClickAsync(new()));
        Assert.Equal(1, scene.Page.Prints);
    }
}
