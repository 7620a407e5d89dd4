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

        await Field(form).InputAsync(new() { Value = typed });
        Assert.Equal(echo is null ? [] : new[] { echo }, form.FindAll(".echo").Select(each => each.TextContent.Trim()));
        await form.Find("form").SubmitAsync();

        Assert.Equal(ohms, Assert.Single(made).GetProperty("ohms").GetDouble());
    }

    [Fact]
    public async Task OL_in_letters_is_over_range()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, made);

        await Field(form).InputAsync(new() { Value = "0.L" });
        await form.Find("form").SubmitAsync();

        Assert.Equal("over-range", Assert.Single(made).GetProperty("value").GetString());
    }

    [Fact]
    public async Task What_could_not_be_done_is_recorded_without_an_answer()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.TerminalLook, made);

        await Tick(form, "Ground wet").ChangeAsync(new() { Value = true });
        await Tick(form, "It could not be done").ChangeAsync(new() { Value = true });
        Assert.DoesNotContain("Bright and tight", form.Markup, StringComparison.Ordinal);
        await form.Find("form").SubmitAsync();

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

        await Field(form).InputAsync(new() { Value = "9x" });
        await form.Find("form").SubmitAsync();
        Assert.NotEmpty(form.FindAll(".fault"));
        await Field(form).InputAsync(new() { Value = "9" });

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

        await Field(form).InputAsync(new() { Value = typed });
        await form.Find("form").SubmitAsync();
        Assert.Empty(made);
        Assert.Contains("Is that right?", form.Find(".doubt").TextContent, StringComparison.Ordinal);
        await form.Find("form").SubmitAsync();

        Assert.Single(made);
    }

    [Fact]
    public async Task What_is_half_filled_in_survives_a_reload_and_goes_when_it_is_added()
    {
        using Scene scene = new();
        List<JsonElement> made = [];
        IRenderedComponent<ReadingForm> form = await OpenAsync(scene, StepKind.LoopResistance, []);
        await Field(form).InputAsync(new() { Value = "96" });

        form = Render(scene, StepKind.LoopResistance, made);
        Assert.Equal("96", Field(form).GetAttribute("value"));
        await form.Find("form").SubmitAsync();

        Assert.Single(made);
        Assert.Empty(scene.Page.Drafts);
    }

    private static IElement Field(IRenderedComponent<ReadingForm> form) => form.Find("input[inputmode=decimal]");

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
