using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class RunCommandTests
{
    private static readonly string Example = Repository.At("examples/sorrel-corner.yard.json");

    [Fact]
    public void Text_is_the_approved_one() => Approved.Check("run.txt", CliRun.Of("run", Example, "--hours", "6").Output);

    [Fact]
    public void Json_has_the_promised_properties_and_shares_that_rise()
    {
        CliRun run = CliRun.Of("run", Example, "--hours", "4", "--ohms", "400", "--seed", "7", "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement[] mown = [.. document.RootElement.GetProperty("mown").EnumerateArray()];
        Assert.Equal(0, mown[0].GetProperty("hours").GetDouble());
        Assert.Equal(4, mown[^1].GetProperty("hours").GetDouble());
        double before = 0;
        foreach (JsonElement point in mown)
        {
            double low = point.GetProperty("low").GetDouble(), median = point.GetProperty("median").GetDouble(), high = point.GetProperty("high").GetDouble();
            Assert.True(low <= median && median <= high && median >= before && high <= 1);
            before = median;
        }

        Assert.InRange(before, 0.01, 1);
        Assert.All(document.RootElement.GetProperty("stuck").EnumerateArray(), stuck => Assert.InRange(stuck.GetProperty("share").GetDouble(), 0, 1));
        Assert.Equal(run.Output, CliRun.Of("run", Example, "--hours", "4", "--ohms", "400", "--seed", "7", "--json").Output);
    }

    [Theory]
    [InlineData("--hours", "0", "swardloop run: --hours: \"0\" is not a number from 0.01 to 1000; allowed: a number from 0.01 to 1000 h")]
    [InlineData("--ohms", "-3", "swardloop run: --ohms: \"-3\" is not a number from 0 to 1000000000; allowed: a number from 0 to 1000000000 Ω")]
    [InlineData("--seed", "x", "swardloop run: --seed: \"x\" is not a whole number from 0 to 9223372036854775807; allowed: a whole number from 0 to 9223372036854775807")]
    public void Wrong_options_are_refused_in_one_line(string option, string value, string line) =>
        Assert.Equal(line, CliRun.Of("run", Example, option, value).RefusedLine());
}
