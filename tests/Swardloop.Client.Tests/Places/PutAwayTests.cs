using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Client.Device;
using Swardloop.Client.Places;
using Swardloop.Client.Records;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Places;

/// <summary>A case, a yard or an owner that was made by mistake is put away while nothing hangs on it, and comes back.</summary>
public class PutAwayTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task Case_is_put_away_while_nothing_was_recorded_or_planned_and_comes_back()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"), mistaken = await scene.AddCaseAsync(yard);

        IRenderedComponent<CasePlace> place = scene.Browser.Render<CasePlace>(parameters => parameters.Add(each => each.Id, mistaken));
        await PressAsync(place, "Details");
        await PressAsync(place, "Put it away");

        Assert.True(scene.Device.Replica[mistaken]!.Flag("archived"));
        Assert.EndsWith($"/yard/{yard}", scene.Browser.Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
        Assert.Contains("Case put away", place.Find(".place-head .put-away").TextContent, StringComparison.Ordinal);
        await place.OnAsync(".place-head .put-away button", button => button.ClickAsync(new()));
        Assert.False(scene.Device.Replica[mistaken]!.Flag("archived"));
        Assert.Empty(place.FindAll(".place-head .put-away"));
    }

    [Fact]
    public async Task What_hangs_on_a_case_is_said_until_it_counts_no_more()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid measured = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 61 }""");
        Guid visit = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(visit, RecordKind.Visit, ("yard", Json.Text(yard.ToString())), ("case", Json.Text(measured.ToString())), ("on", Json.Text("2026-05-14")));

        IRenderedComponent<PutAway> part = Render(scene, measured, RecordKind.Case);
        Assert.Empty(part.FindAll("button"));
        Assert.Contains("Observation: 1 · Visit: 1.", part.Find(".put-away").TextContent, StringComparison.Ordinal);

        RecordState observation = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Observation));
        await scene.ChangeAsync(observation.Id, RecordKind.Observation, ("struck", Json.Text("another yard's")));
        await scene.ChangeAsync(visit, RecordKind.Visit, ("archived", Json.Flag(true)));
        await part.WaitForAssertionAsync(() => Assert.Single(part.FindAll("button")), Patience);
    }

    [Fact]
    public async Task Yard_with_an_open_case_and_owner_with_a_yard_stay()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid owner = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")));
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        await scene.ChangeAsync(yard, RecordKind.Yard, ("owner", Json.Text(owner.ToString())));
        Guid @case = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 61 }""");
        NavigationManager navigation = scene.Browser.Services.GetRequiredService<NavigationManager>();

        IRenderedComponent<PutAway> ofYard = Render(scene, yard, RecordKind.Yard), ofOwner = Render(scene, owner, RecordKind.Owner);
        Assert.Contains("Case: 1.", ofYard.Markup, StringComparison.Ordinal);
        Assert.Contains("Yard: 1.", ofOwner.Markup, StringComparison.Ordinal);
        Assert.Empty(ofYard.FindAll("button").Concat(ofOwner.FindAll("button")));

        // Over: its readings stay with it.
        await scene.ChangeAsync(@case, RecordKind.Case, ("state", Json.Text("closed")));
        await ofYard.WaitForAssertionAsync(() => Assert.Single(ofYard.FindAll("button")), Patience);
        await ofYard.OnAsync("button", button => button.ClickAsync(new()));
        Assert.EndsWith($"/owner/{owner}", navigation.Uri, StringComparison.Ordinal);

        await ofOwner.WaitForAssertionAsync(() => Assert.Single(ofOwner.FindAll("button")), Patience);
        await ofOwner.OnAsync("button", button => button.ClickAsync(new()));
        Assert.EndsWith("/owners", navigation.Uri, StringComparison.Ordinal);
        Assert.True(scene.Device.Replica[owner]!.Flag("archived"));
    }

    private static IRenderedComponent<PutAway> Render(Scene scene, Guid id, RecordKind kind) =>
        scene.Browser.Render<PutAway>(parameters => parameters.Add(each => each.Id, id).Add(each => each.Kind, kind));

    private static Task PressAsync(IRenderedComponent<CasePlace> place, string words) =>
        place.OnAsync(() => place.FindAll("button").Single(button => button.TextContent.Trim() == words), button => button.ClickAsync(new()));
}
