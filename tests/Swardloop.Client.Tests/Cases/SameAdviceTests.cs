using System.Text;
using System.Text.Json;
using Swardloop.Cli;
using Swardloop.Client.Cases;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;

namespace Swardloop.Client.Tests.Cases;

/// <summary>The app and the command line say the same of the same case, to the byte.</summary>
public class SameAdviceTests
{
    [Fact]
    public async Task Advice_of_the_page_is_the_command_lines_for_the_file_that_the_page_exports()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(
            yard,
            """{ "test": "station-lamp", "value": "normal" }""",
            """{ "test": "mower-reach", "distanceM": 2.0, "bound": "exact" }""",
            """{ "test": "loop-resistance", "ohms": 557, "leadOhms": 0.3, "meter": { "percent": 0.8, "digits": 3, "resolutionOhms": 1 } }""");

        CaseView view = CaseView.Of(scene.Device.Replica, id, new())!;
        Advice advice = await new AdviceSource().AdviseAsync(view.File.Value!, CausePriors.Default, CancellationToken.None);
        using MemoryStream page = new();
        using (Utf8JsonWriter json = new(page, new JsonWriterOptions { Indented = true, NewLine = "\n", Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }))
        {
            AdviceJson.Write(advice, view.File.Value!.Case, json);
        }

        using MemoryStream input = new(view.File.Value.ToUtf8()), output = new(), error = new();
        int exit = Shell.Run(["advise", "-", "--json"], new Terminal(() => input, () => output, () => error));

        Assert.Equal(0, exit);
        Assert.Equal(Encoding.UTF8.GetString(output.ToArray()).TrimEnd(), Encoding.UTF8.GetString(page.ToArray()));
    }

    [Fact]
    public async Task What_is_only_tried_counts_in_the_advice_and_is_kept_nowhere()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "station-lamp", "value": "normal" }""");

        CaseView tried = CaseView.Of(scene.Device.Replica, id, new(), Client.Device.Json.Parse("""{ "test": "outlet-check", "value": "live" }"""))!;

        Assert.Equal([StepKind.StationLamp, StepKind.OutletCheck], tried.File.Value!.Case.Observations.Select(seen => seen.Step));
        Assert.Single(tried.All);
    }
}
