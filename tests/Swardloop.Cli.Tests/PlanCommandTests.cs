using System.Text;
using System.Text.Json;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Tests;

public sealed class PlanCommandTests
{
    private static readonly string Example = Repository.At("examples/alder-bank.lawn.json");

    [Fact]
    public void Text_is_the_approved_one() => Approved.Check("plan.txt", CliRun.Of("plan", Example).Output);

    [Fact]
    public void Json_has_the_promised_properties_and_valid_yards()
    {
        CliRun run = CliRun.Of("plan", Example, "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement[] plans = [.. document.RootElement.GetProperty("plans").EnumerateArray()];
        Assert.InRange(plans.Length, 2, 3);
        foreach (JsonElement plan in plans)
        {
            YardFile yard = YardFile.Read(Encoding.UTF8.GetBytes(plan.GetProperty("yard").GetRawText()), "plan").Value!;
            Assert.Equal(yard.Yard.Loop.LengthMetres, plan.GetProperty("lengthM").GetDouble(), tolerance: 1e-6);
            Assert.True(plan.GetProperty("expectedOhms").GetProperty("nominal").GetDouble() > 0.5);
            Assert.True(plan.GetProperty("weakestMarginDb").GetDouble() >= 6);
            Assert.True(plan.GetProperty("ohmsToSpare").GetDouble() > 50);
            Assert.Contains(plan.GetProperty("parts").EnumerateArray(), part => part.GetProperty("name").GetString() == "wire");
            Assert.True(plan.GetProperty("minutes").GetDouble() > 120 && plan.GetProperty("cost").GetDouble() > 100);
        }
    }

    [Fact]
    public void A_lawn_without_room_is_refused_in_one_line()
    {
        string line = CliRun.WithInput("""{"format":"swardloop-lawn/1","name":"l","lawn":[[[0,0],[0.9,0],[0.9,4],[0,4]]]}""", "plan", "-").RefusedLine();
        Assert.StartsWith("standard input: lawn: no loop fits on it; allowed: a lawn with a part of 3 m² or more", line, StringComparison.Ordinal);
    }
}
