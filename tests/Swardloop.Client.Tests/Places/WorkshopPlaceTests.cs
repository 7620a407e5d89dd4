using Bunit;
using Swardloop.Client.Places;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Places;

public class WorkshopPlaceTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Sessions_are_listed_by_person_device_and_time_and_ended_but_not_ones_own_by_mistake()
    {
        using Scene scene = new();
        await scene.StartAsync();
        DateTimeOffset at = new(2026, 5, 14, 9, 30, 0, TimeSpan.Zero);
        scene.Workshop.Sessions.Add(new(Guid.CreateVersion7(), "Robin", "a browser", at, at.AddHours(2), true));
        scene.Workshop.Sessions.Add(new(Guid.CreateVersion7(), "Robin", "a lost telephone", at, at.AddHours(1), false));

        IRenderedComponent<SessionList> list = scene.Browser.Render<SessionList>();
        await list.WaitForAssertionAsync(() => Assert.Equal(2, list.FindAll("li").Count), Patience);
        Assert.Contains("a lost telephone", list.Find("li:nth-child(2)").TextContent, StringComparison.Ordinal);
        await list.OnAsync("li button", button => button.ClickAsync(new()));
        await list.WaitForAssertionAsync(() => Assert.Single(list.FindAll("li")), Patience);
        Assert.True(Assert.Single(scene.Workshop.Sessions).IsThis);
    }

    [Fact]
    public async Task Somebody_is_invited_by_a_code_told_once_and_nobody_sets_a_password_for_others()
    {
        using Scene scene = new();
        await scene.StartAsync();
        IRenderedComponent<WorkshopPlace> place = scene.Browser.Render<WorkshopPlace>();
        await PressAsync("Invite a person");
        Assert.Empty(place.FindAll("dialog input[type=password]"));
        await place.OnAsync(() => place.FindAll("dialog form input")[0], input => input.ChangeAsync(new() { Value = "Teasel Sedge" }));
        await place.OnAsync(() => place.FindAll("dialog form input")[1], input => input.ChangeAsync(new() { Value = "teasel@swardloop.example" }));
        await place.OnAsync("dialog form", form => form.SubmitAsync());

        await place.WaitForAssertionAsync(() => Assert.Contains("otter-sedge-1234", place.Find("dialog textarea").TextContent, StringComparison.Ordinal), Patience);
        string invitation = place.Find("dialog textarea").TextContent;
        Assert.Contains("Teasel Sedge", invitation, StringComparison.Ordinal);
        Assert.Contains("teasel@swardloop.example", invitation, StringComparison.Ordinal);
        Assert.Contains("14 May 2026", invitation, StringComparison.Ordinal); // until when it is good
        Assert.Equal(new NewPerson("Teasel Sedge", "teasel@swardloop.example", Role.Technician), Assert.Single(scene.Workshop.Invited));

        Task PressAsync(string words) => place.OnAsync(() => place.FindAll("button").First(button => button.TextContent.Trim() == words), button => button.ClickAsync(new()));
    }

    [Fact]
    public async Task Forgetting_shows_every_text_keeps_what_is_unticked_and_reports_what_went()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid owner = Guid.CreateVersion7();
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Client.Device.Json.Text("Odo Quillfeather")));
        scene.Workshop.Preview = new(
            [new($"{owner}/name", RecordKind.Owner, "name", "", "Odo Quillfeather", false, false), new("k/found", RecordKind.Case, "found", "", "three turns of tape", true, false), new("k/note", RecordKind.Case, "note", "", "knock twice", true, true)], 2, 1);

        IRenderedComponent<ForgetOwner> place = scene.Browser.Render<ForgetOwner>();
        await place.OnAsync("select", select => select.ChangeAsync(new() { Value = owner.ToString() }));
        await place.WaitForAssertionAsync(() => Assert.Equal(3, place.FindAll("li").Count), Patience);
        Assert.Equal(2, place.FindAll("li input").Count);
        await place.OnAsync("li input", box => box.ChangeAsync(new() { Value = false }));
        Assert.True(place.Find("button").HasAttribute("disabled"));
        await place.OnAsync("input[autocomplete=off]", input => input.InputAsync(new() { Value = "Odo Quillfeather" }));
        await place.OnAsync("button", button => button.ClickAsync(new()));

        await place.WaitForAssertionAsync(() => Assert.Contains("workshop.rescued-1.db", place.Find("[role=status]").TextContent, StringComparison.Ordinal), Patience);
        (string forgotten, ForgetRequest asked) = Assert.Single(scene.Workshop.Forgotten);
        Assert.Equal((owner.ToString(), "k/found"), (forgotten, Assert.Single(asked.Keep)));
    }
}
