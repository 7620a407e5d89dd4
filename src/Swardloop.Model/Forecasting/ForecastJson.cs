using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Forecasting;

namespace Swardloop.Model.Forecasting;

/// <summary>A forecast as the contract has it.</summary>
public static class ForecastJson
{
    /// <summary>Writes it.</summary>
    public static void Write(ReceptionForecast forecast, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteStartArray("readings");
        foreach (ReadingAt20C reading in forecast.Readings)
        {
            json.WriteStartObject();
            json.WriteString("at", Day(reading.Record.At));
            Figure(json, "ohmsAt20C", reading.OhmsAt20C, 4);
            Figure(json, "deviationOhms", reading.DeviationOhms, 4);
            Figure(json, "temperatureC", reading.TemperatureCelsius, 1);
            json.WriteBoolean("temperatureMeasured", reading.TemperatureMeasured);
            json.WriteBoolean("used", reading.Used);
            Figure(json, "oddProbability", reading.OddProbability, 3);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Dates(json, "weakestLostOn", forecast.WeakestLost);
        Dates(json, "fivePercentLostOn", forecast.FivePercentLost);
        json.WriteStartObject("allowingForProfile");
        Dates(json, "weakestLostOn", forecast.WeakestLostAllowing);
        Dates(json, "fivePercentLostOn", forecast.FivePercentLostAllowing);
        json.WriteEndObject();
        json.WriteStartObject("limitOhmsAt20C");
        Figure(json, "weakest", forecast.WeakestLimitOhms, 3);
        Figure(json, "fivePercent", forecast.FivePercentLimitOhms, 3);
        Figure(json, "deviation", forecast.LimitDeviationOhms, 3);
        json.WriteEndObject();
        Interval(json, "levelOhmsAt20C", forecast.LevelOhms);
        Interval(json, "growthOhmsPerYear", forecast.GrowthOhmsPerYear);
        Figure(json, "stepwiseProbability", forecast.StepwiseProbability, 3);
        if (forecast.WetExcess is { } wet)
        {
            json.WriteStartObject("wetExcessOhms");
            Figure(json, "ohms", wet.Ohms, 3);
            Figure(json, "deviation", wet.Deviation, 3);
            json.WriteEndObject();
        }

        json.WriteStartArray("flags");
        foreach ((ForecastNote note, int? at) in forecast.Notes)
        {
            json.WriteStartObject();
            json.WriteString("flag", ForecastWords.NameOf(note));
            if (at is { } reading)
            {
                json.WriteNumber("reading", reading);
            }

            json.WriteString("words", ForecastWords.English.Say(note, at is { } i ? forecast.Readings[i] : null));
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Dates(Utf8JsonWriter json, string name, LossDate lost)
    {
        json.WriteStartObject(name);
        Date(json, "low", lost.Low);
        Date(json, "median", lost.Median);
        Date(json, "high", lost.High);
        json.WriteNumber("credibility", LossDate.Credibility);
        json.WriteEndObject();
    }

    private static void Date(Utf8JsonWriter json, string name, DateOnly? date)
    {
        if (date is { } day)
        {
            json.WriteString(name, Day(day));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static void Interval(Utf8JsonWriter json, string name, (double Low, double Median, double High) of)
    {
        json.WriteStartObject(name);
        Figure(json, "low", of.Low, 3);
        Figure(json, "median", of.Median, 3);
        Figure(json, "high", of.High, 3);
        json.WriteEndObject();
    }

    // Fewer digits than the machine has: the same file gives the same bytes although logarithms differ in their last bit.
    private static void Figure(Utf8JsonWriter json, string name, double? value, int decimals)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, Math.Round((decimal)Math.Clamp(number, -1e12, 1e12), decimals));
        }
        else
        {
            json.WriteNull(name);
        }
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
