using Bunit;
using Swardloop.Client.Cases;
using Swardloop.Client.Device;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Cases;

/// <summary>A visit says where a case stands, and opens none again.</summary>
public class VisitDialogTests
{
    [Theory]
    [InlineData("open", "visit-planned")]
    [InlineData("closed", "closed")]
    public async Task Visit_plans_an_open_case_and_leaves_a_closed_one_closed(string before, string after)
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner"), @case = await scene.AddCaseAsync(yard);
        await scene.ChangeAsync(@case, RecordKind.Case, ("state", Json.Text(before)));
        IRenderedComponent<VisitDialog> dialog = scene.Browser.Render<VisitDialog>(parameters => parameters.Add(each => each.Yard, yard).Add(each => each.Case, @case));

        await dialog.InvokeAsync(dialog.Instance.Open);
        dialog.WaitForElement("form");
        await dialog.OnAsync("form", form => form.SubmitAsync());

        Assert.Equal(@case, Assert.Single(scene.Device.Replica.OfKind(RecordKind.Visit)).Reference("case"));
        Assert.Equal(after, scene.Device.Replica[@case]!.Text("state"));
    }
}
