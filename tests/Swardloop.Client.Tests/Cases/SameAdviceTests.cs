using System.Text;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Cli;
using Swardloop.Client.Cases;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Drawing;

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
            """{ "test": "mower-reach", "distanceM": 1.9, "bound": "exact" }""",
            """{ "test": "loop-resistance", "ohms": 338, "leadOhms": 0.3, "meter": { "percent": 0.8, "digits": 3, "resolutionOhms": 1 } }""");

        CaseView view = CaseView.Of(scene.Device.Replica, id, new())!;
        byte[] page = await scene.Browser.Services.GetRequiredService<Engine>().AdviseAsync(view.File.Value!.ToUtf8(), cancellation: Xunit.TestContext.Current.CancellationToken);
        using MemoryStream input = new(view.File.Value.ToUtf8()), output = new(), error = new();
        int exit = Shell.Run(["advise", "-", "--json"], new Terminal(() => input, () => output, () => error));

        Assert.Equal(0, exit);
        Assert.Equal(Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(page));
        Assert.NotEmpty(ShownAdvice.Read(page).Next);
    }

    [Fact]
    public async Task Words_come_in_the_language_asked_for_and_the_numbers_stay()
    {
        using Scene scene = new();
        await scene.StartAsync();
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        Guid id = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 338, "leadOhms": 0.3 }""");
        CaseView view = CaseView.Of(scene.Device.Replica, id, new())!;
        AdviceSource source = scene.Browser.Services.GetRequiredService<AdviceSource>();

        ShownAdvice english = await source.AdviseAsync(view.File.Value!, default, Tongue.English, CancellationToken.None);
        ShownAdvice german = await source.AdviseAsync(view.File.Value!, default, Tongue.German, CancellationToken.None);

        Assert.Equal(english.Causes, german.Causes);
        Assert.Equal(english.Next.Select(next => next.Step), german.Next.Select(next => next.Step));
        Assert.NotEqual(english.Next[0].Why, german.Next[0].Why);
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
