using System.Text.Json.Nodes;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>A case in which the same was measured again and again, agreeing or not: advice is whole JSON with finite money, and the case stays readable.</summary>
public sealed class ManyReadingsTests
{
    public static TheoryData<string, int> Stories => new() { { "equal", 600 }, { "contradictory", 200 }, { "many", 1_050 } };

    [Theory]
    [MemberData(nameof(Stories))]
    public async Task However_many_readings_there_are_advice_is_finite_and_the_case_is_read(string story, int count)
    {
        string[] readings = [.. Enumerable.Range(0, count).Select(i => story switch
        {
            "equal" => """{"test":"loop-resistance","ohms":184}""",
            "contradictory" => i % 2 == 0 ? """{"test":"loop-resistance","ohms":5}""" : """{"test":"loop-resistance","value":"over-range"}""",
            _ => $$"""{"test":"loop-resistance","ohms":{{4 + (i % 7)}}}""",
        })];
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        await desk.KeepAsync(Made.Yard(yard), Made.Case(@case, yard));
        foreach (string[] some in readings.Chunk(200))
        {
            await desk.KeepAsync([.. some.Select(reading => Made.Observation(Guid.CreateVersion7(), yard, @case, reading))]);
        }

        HttpResponseMessage file = await desk.GetAsync($"/api/cases/{@case}/file");
        Assert.Equal(HttpStatusCode.OK, file.StatusCode);
        string text = await file.Content.ReadAsStringAsync();
        HttpResponseMessage answer = await desk.PostAsync("/api/advice", Served.Json(text));
        string said = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, said);
        Finite(said);
        using HttpClient owner = served.Client();
        Assert.Equal(HttpStatusCode.OK, (await owner.GetAsync(await desk.LinkAsync(yard, @case))).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await desk.GetAsync("/api/bench")).StatusCode);

        string path = Path.Combine(TestPlaces.Sqlite().Folder, "many.case.json");
        await File.WriteAllTextAsync(path, text);
        (int exitCode, string output, string error) = CommandRun.Run("advise", path, "--json");
        Assert.Equal((0, ""), (exitCode, error));
        Finite(output);
        Assert.Equal(0, CommandRun.Run("advise", path).ExitCode);
    }

    private static void Finite(string advice)
    {
        JsonNode read = JsonNode.Parse(advice)!;
        Assert.Equal(1, read["causes"]!.AsArray().Sum(cause => cause!["probability"]!.GetValue<double>()), 1e-6);
        Assert.All(read["next"]!.AsArray(), step =>
        {
            Assert.True(double.IsFinite(step!["costNow"]!.GetValue<double>()));
            Assert.True(double.IsFinite(step["expectedCostToFinish"]!.GetValue<double>()));
        });
    }
}
