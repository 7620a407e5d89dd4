using AngleSharp.Dom;
using Bunit;
using Swardloop.Client.Cases;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Cases;

/// <summary>Nothing happens by accident when a case is opened.</summary>
public class NewCaseDialogTests
{
    [Fact]
    public async Task Enter_in_which_yard_picks_the_match_and_opens_nothing()
    {
        using Scene scene = new();
        (Guid yard, IRenderedComponent<NewCaseDialog> dialog) = await OpenAsync(scene);

        IElement which = dialog.Find("input[type=text]");
        Assert.Null(which.Closest("form"));
        await dialog.OnAsync("input[type=text]", input => input.InputAsync(new() { Value = "Sorrel" }));
        await dialog.OnAsync("input[type=text]", input => input.KeyDownAsync("Enter"));

        Assert.Empty(scene.Device.Replica.OfKind(RecordKind.Case));
        await dialog.OnAsync("textarea", area => area.InputAsync(new() { Value = "stands still at the edge" }));
        await dialog.OnAsync("form", form => form.SubmitAsync());
        RecordState @case = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Case));
        Assert.Equal(yard, @case.Reference("yard"));
        Assert.Equal("stands still at the edge", @case.Text("complaint"));
        Assert.Empty(scene.Page.Drafts);
    }

    [Fact]
    public async Task Case_without_a_complaint_is_opened_only_when_that_is_meant()
    {
        using Scene scene = new();
        (_, IRenderedComponent<NewCaseDialog> dialog) = await OpenAsync(scene);

        await dialog.OnAsync("form", form => form.SubmitAsync());
        Assert.Empty(scene.Device.Replica.OfKind(RecordKind.Case));
        Assert.Contains("Press again", dialog.Markup, StringComparison.Ordinal);
        await dialog.OnAsync("form", form => form.SubmitAsync());

        Assert.Single(scene.Device.Replica.OfKind(RecordKind.Case));
    }

    [Fact]
    public async Task Half_filled_dialog_survives_a_reload()
    {
        using Scene scene = new();
        (_, IRenderedComponent<NewCaseDialog> dialog) = await OpenAsync(scene);
        await dialog.OnAsync("textarea", area => area.InputAsync(new() { Value = "stands st" }));

        IRenderedComponent<NewCaseDialog> again = Render(scene);

        Assert.Equal("stands st", again.Find("textarea").GetAttribute("value"));
        await again.OnAsync(() => again.FindAll("button").Single(button => button.TextContent == "Begin anew"), button => button.ClickAsync(new()));
        Assert.Empty(scene.Page.Drafts);
        Assert.Equal("", again.Find("textarea").GetAttribute("value") ?? "");
    }

    private static async Task<(Guid Yard, IRenderedComponent<NewCaseDialog> Dialog)> OpenAsync(Scene scene)
    {
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        return (yard, Render(scene));
    }

    private static IRenderedComponent<NewCaseDialog> Render(Scene scene)
    {
        IRenderedComponent<NewCaseDialog> dialog = scene.Browser.Render<NewCaseDialog>();
        dialog.InvokeAsync(() => dialog.Instance.Open(null)).GetAwaiter().GetResult();
        dialog.WaitForElement("textarea");
        return dialog;
    }
}
