using System.Text.Json;
using AngleSharp.Dom;
using Bunit;
using Swardloop.Client.Cases;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Yards;

namespace Swardloop.Client.Tests.Cases;

/// <summary>Readings as people say them and meters show them, at the desk.</summary>
public class ReadingFormTests
{
    private const string Number = "input[inputmode=decimal]";

    [Theory]
    [InlineData("96k", 96_000, "= 96 kΩ")]
    [InlineData("0,096k", 96, "= 96 Ω")]
    [InlineData("96 ohm", 96, "= 96 Ω")]
    [InlineData("96Ω", 96, "= 96 Ω")]
    [InlineData("5,3", 5.3, null)]
    public async Task Reading_is_understood_and_said_back(string typed, double ohms, string? echo)
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, made);

        await form.OnAsync(Number, input => input.InputAsync(new() { Value = typed }));
        Assert.Equal(echo is null ? [] : new[] { echo }, form.FindAll(".echo").Select(each => each.TextContent.Trim()));
        await form.OnAsync("form", each => each.SubmitAsync());

        Assert.Equal(ohms, Assert.Single(made).GetProperty("ohms").GetDouble());
    }

    [Fact]
    public async Task OL_in_letters_is_over_range()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, made);

        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "0.L" }));
        await form.OnAsync("form", each => each.SubmitAsync());

        Assert.Equal("over-range", Assert.Single(made).GetProperty("value").GetString());
    }

    [Fact]
    public async Task What_could_not_be_done_is_recorded_without_an_answer()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.TerminalLook, made);

        await form.OnAsync(() => Tick(form, "Ground wet"), box => box.ChangeAsync(new() { Value = true }));
        await form.OnAsync(() => Tick(form, "It could not be done"), box => box.ChangeAsync(new() { Value = true }));
        Assert.DoesNotContain("Bright and tight", form.Markup, StringComparison.Ordinal);
        await form.OnAsync("form", each => each.SubmitAsync());

        JsonElement reading = Assert.Single(made);
        Assert.Equal("not-done", reading.GetProperty("value").GetString());
        Assert.Equal("wet", Assert.Single(reading.GetProperty("conditions").EnumerateArray()).GetString());
    }

    private static IElement Tick(IRenderedComponent<ReadingForm> form, string words) =>
        form.FindAll("label.check").Single(label => label.TextContent.Trim() == words).QuerySelector("input")!;

    [Fact]
    public async Task Fault_goes_the_moment_the_value_is_right()
    {
        using Scene scene = new();
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, []);

        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "9x" }));
        await form.OnAsync("form", each => each.SubmitAsync());
        Assert.NotEmpty(form.FindAll(".fault"));
        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "9" }));

        Assert.Empty(form.FindAll(".fault"));
    }

    [Theory]
    [InlineData(StepKind.LoopResistance, "2.8M")]
    [InlineData(StepKind.MowerReach, "500")]
    public async Task Number_that_can_hardly_be_is_asked_for_once_more(StepKind step, string typed)
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, step, made);

        await form.OnAsync(Number, input => input.InputAsync(new() { Value = typed }));
        await form.OnAsync("form", each => each.SubmitAsync());
        Assert.Empty(made);
        Assert.Contains("Is that right?", form.Find(".doubt").TextContent, StringComparison.Ordinal);
        await form.OnAsync("form", each => each.SubmitAsync());

        Assert.Single(made);
    }

    [Fact]
    public async Task What_is_half_filled_in_survives_a_reload_and_goes_when_it_is_added()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, []);
        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "96" }));

        form = Render(scene, StepKind.LoopResistance, made);
        Assert.Equal("96", form.Find(Number).GetAttribute("value"));
        await form.OnAsync("form", each => each.SubmitAsync());

        Assert.Single(made);
        Assert.Empty(scene.Page.Drafts);
    }

    [Fact]
    public async Task What_is_typed_again_never_gives_way_to_what_was_typed_before()
    {
        using Scene scene = new();
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, []);
        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "96" }));
        TaskCompletionSource isRead = new();
        scene.Page.BeforeDraft = () => isRead.Task;

        form = Render(scene, StepKind.LoopResistance, []);
        Assert.Empty(form.FindAll("input")); // nothing to type into that the draft, read late, would replace
        await form.InvokeAsync(isRead.SetResult);
        form.WaitForElement(Number);
        Assert.Equal("96", form.Find(Number).GetAttribute("value"));
        await form.OnAsync(Number, input => input.InputAsync(new() { Value = "97" }));

        scene.Page.BeforeDraft = () => Task.CompletedTask;
        Assert.Equal("97", Render(scene, StepKind.LoopResistance, []).Find(Number).GetAttribute("value"));
    }

    private static async Task<IRenderedComponent<ReadingForm>> OpenAsync(Scene scene, StepKind step, List<JsonElement> made)
    {
        await scene.StartAsync();
        return Render(scene, step, made);
    }

    private static IRenderedComponent<ReadingForm> Render(Scene scene, StepKind step, List<JsonElement> made)
    {
        Yard yard = YardFile.Read(File.ReadAllBytes(Scene.Example("sorrel-corner.yard.json")), "yard").Value!.Yard;
        return scene.Browser.Render<ReadingForm>(parameters => parameters
            .Add(each => each.Draft, new ReadingDraft(step, null, scene.Speech)).Add(each => each.Yard, yard).Add(each => each.Form, "reading")
            .Add(each => each.WireMetres, yard.Loop.LengthMetres).Add(each => each.Action, "Add").Add(each => each.OnDone, made.Add));
    }
}
