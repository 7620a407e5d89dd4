using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Forecasting;
using Swardloop.Model.Forecasting;
using Swardloop.Model.Yards;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop forecast</c>: from a loop's readings over the years, when its yard loses reception.</summary>
internal sealed class ForecastCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("forecast", "From a loop's readings over the years: when its yard loses reception.")
    {
        Positionals =
        [
            new("YARD", "A yard file; - reads standard input."),
            new("READINGS", "CSV: at,ohms,leadOhms,temperatureC,conditions (the last three may be empty); - reads standard input."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        if (call.Positionals is ["-", "-"])
        {
            throw call.Wrong("READINGS", "both files from standard input", "- for one of them");
        }

        YardFile yard = call.ReadChecked<YardFile>(YardFile.Read);
        ReadingsFile readings = call.ReadChecked<ReadingsFile>(ReadingsFile.Read, 1);
        return new ForecastResult(yard.Yard.Name, Forecaster.Of(yard.Yard, readings.Readings));
    }
}

/// <summary>When a yard loses reception, with what that rests on.</summary>
internal sealed class ForecastResult(string yardName, ReceptionForecast forecast) : CommandResult
{
    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json) => ForecastJson.Write(forecast, json);

    /// <inheritdoc/>
    public override void WriteText(TextWriter text)
    {
        text.WriteLine(SafeText.OneLine(yardName, 60));
        text.WriteLine();
        text.WriteLine("Readings at 20 °C");
        foreach (ReadingAt20C reading in forecast.Readings)
        {
            string used = reading.Used ? "" : "  not counted";
            text.WriteLine($"{Day(reading.Record.At)}      {Figures.WithDeviation(reading.OhmsAt20C, reading.DeviationOhms, "Ω")}{used}");
        }

        text.WriteLine();
        text.WriteLine($"Now             {Interval(forecast.LevelOhms)} Ω");
        text.WriteLine($"Grows by        {Interval(forecast.GrowthOhmsPerYear)} Ω a year");
        text.WriteLine();
        text.WriteLine("Reception is lost (90 of 100)");
        Write(text, "weakest place", forecast.WeakestLimitOhms, forecast.WeakestLost);
        Write(text, "5 % of the lawn", forecast.FivePercentLimitOhms, forecast.FivePercentLost);
        text.WriteLine();
        text.WriteWrapped("The same, allowing for what is not known of station and mower");
        Write(text, "weakest place", null, forecast.WeakestLostAllowing);
        Write(text, "5 % of the lawn", null, forecast.FivePercentLostAllowing);
        foreach ((ForecastNote note, int? at) in forecast.Notes)
        {
            text.WriteLine();
            text.WriteWrapped(ForecastWords.English.Say(note, at is { } i ? forecast.Readings[i] : null));
        }
    }

    private static string Interval((double Low, double Median, double High) of) =>
        $"{Figures.Plain(of.Median)} ({Figures.Plain(of.Low)} to {Figures.Plain(of.High)})";

    private void Write(TextWriter text, string what, double? limit, LossDate lost)
    {
        string start = $"{what,-16}";
        string dates = lost.Low is null
            ? "not within 20 years"
            : $"about {Later(lost.Median)}, from {Later(lost.Low)} to {Later(lost.High)}";
        text.WriteWrapped(limit is { } ohms ? $"{dates}, at {Figures.Plain(ohms, 3)} Ω" : dates, start);
    }

    // The first reading's day stands for then or earlier.
    private string Later(DateOnly? day) => day is not { } one ? "after 20 years" : one <= forecast.Readings[0].Record.At ? $"before {Day(one)}" : Day(one);

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
