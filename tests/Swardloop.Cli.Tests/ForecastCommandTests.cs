using System.Text.Json;

namespace Swardloop.Cli.Tests;

public sealed class ForecastCommandTests
{
    private static readonly string Yard = Repository.At("examples/marram-reach.yard.json"), Readings = Repository.At("tests/Swardloop.Cli.Tests/marram-reach.readings.csv");

    [Fact]
    public void Text_is_the_approved_one_and_fits_a_phone()
    {
        string output = CliRun.Of("forecast", Yard, Readings).Output;
        Approved.Check("forecast.txt", output);
        Assert.All(output.Split('\n'), line => Assert.InRange(line.Length, 0, WrappedText.Columns));
    }

    [Fact]
    public void Json_has_the_promised_properties()
    {
        CliRun run = CliRun.Of("forecast", Yard, Readings, "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        using JsonDocument document = JsonDocument.Parse(run.Output);
        JsonElement forecast = document.RootElement, reading = forecast.GetProperty("readings")[5];
        Assert.Equal(7, forecast.GetProperty("readings").GetArrayLength());
        Assert.False(reading.GetProperty("used").GetBoolean());
        Assert.InRange(reading.GetProperty("ohmsAt20C").GetDouble(), 24, 25);
        foreach (string name in new[] { "weakestLostOn", "fivePercentLostOn" })
        {
            JsonElement lost = forecast.GetProperty(name);
            Assert.Equal(0.9, lost.GetProperty("credibility").GetDouble());
            Assert.Equal(["low", "median", "high", "credibility"], lost.EnumerateObject().Select(property => property.Name));
            Assert.Matches("^20[0-9]{2}-[0-9]{2}-[0-9]{2}$", lost.GetProperty("low").GetString());
        }

        Assert.Contains(forecast.GetProperty("flags").EnumerateArray(), flag => flag.GetProperty("flag").GetString() == "odd-reading" && flag.GetProperty("reading").GetInt32() == 5);
        Assert.Contains(forecast.GetProperty("flags").EnumerateArray(), flag => flag.GetProperty("flag").GetString() == "temperature-by-date");
    }

    [Fact]
    public void Readings_come_from_standard_input_with_the_first_two_columns_only()
    {
        CliRun run = CliRun.WithInput("at,ohms\n2024-04-01T08:30:00Z,6\n2025-04-01,8\n", "forecast", Yard, "-", "--json");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
    }

    [Theory]
    [InlineData("", "standard input: the file is empty; allowed: at,ohms")]
    [InlineData("when,ohms\n", "standard input: line 1: got \"when,ohms\"; allowed: at,ohms")]
    [InlineData("at,ohms\n", "standard input: 0 readings; allowed: 1 to 10000")]
    [InlineData("at,ohms\nyesterday,3\n", "standard input: line 2, at: got \"yesterday\"; allowed: a day such as")]
    [InlineData("at,ohms\n2026-04-01,-3\n", "standard input: line 2, ohms: got \"-3\"; allowed: a number from 0")]
    [InlineData("at,ohms,leadOhms,temperatureC,conditions\n2026-04-01,3,,,foggy\n", "standard input: line 2, conditions: got \"foggy\"; allowed: wet, dry")]
    public void Bad_readings_are_refused_in_one_line(string readings, string line) =>
        Assert.StartsWith(line, CliRun.WithInput(readings, "forecast", Yard, "-").RefusedLine(), StringComparison.Ordinal);

    [Fact]
    public void Standard_input_serves_one_file_only() =>
        Assert.Contains("both files from standard input", CliRun.Of("forecast", "-", "-").RefusedLine(), StringComparison.Ordinal);
}
