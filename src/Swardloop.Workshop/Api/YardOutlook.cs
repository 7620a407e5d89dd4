using Swardloop.Core.Forecasting;

namespace Swardloop.Workshop.Api;

/// <summary>When a yard loses reception, with all that rests on.</summary>
/// <param name="Entry">As the watch list has it.</param>
/// <param name="Forecast">What was computed; null where nothing could be.</param>
public sealed record YardOutlook(WatchEntry Entry, OutlookForecast? Forecast);

/// <summary>A forecast as pages draw it. Resistances at 20 °C (Ω).</summary>
/// <param name="Readings">The readings, by day.</param>
/// <param name="Level">The loop at the last reading.</param>
/// <param name="GrowthPerYear">Its growth there (Ω a year).</param>
/// <param name="WeakestLimit">At which the weakest spot is lost; null when no loop reaches it.</param>
/// <param name="FivePercentLimit">The same for 5 % of the lawn.</param>
/// <param name="WeakestAllowing">When the weakest spot is lost, allowing for what is not known of station and mower.</param>
/// <param name="FivePercentAllowing">The same for 5 % of the lawn.</param>
/// <param name="WetExcess">How much more readings in wet ground show; null when they were not told apart.</param>
/// <param name="Notes">What a person should know.</param>
public sealed record OutlookForecast(
    IReadOnlyList<OutlookReading> Readings, OutlookBand Level, OutlookBand GrowthPerYear, double? WeakestLimit, double? FivePercentLimit,
    OutlookDates WeakestAllowing, OutlookDates FivePercentAllowing, OutlookSpread? WetExcess, IReadOnlyList<OutlookNote> Notes);

/// <summary>A value's interval, nine in ten, and its middle.</summary>
public sealed record OutlookBand(double Low, double Median, double High);

/// <summary>A value with one standard deviation.</summary>
public sealed record OutlookSpread(double Value, double Deviation);

/// <summary>A reading as the forecast took it.</summary>
/// <param name="At">The day.</param>
/// <param name="Shown">What the meter showed (Ω).</param>
/// <param name="Ohms">The loop at 20 °C (Ω).</param>
/// <param name="Deviation">One standard deviation of it (Ω).</param>
/// <param name="Celsius">The temperature it was taken from (°C).</param>
/// <param name="IsMeasured">Whether that was measured.</param>
/// <param name="Used">Whether the dates rest on it.</param>
/// <param name="Wet">The ground was wet.</param>
/// <param name="Dry">The ground was dry.</param>
public sealed record OutlookReading(DateOnly At, double Shown, double Ohms, double Deviation, double Celsius, bool IsMeasured, bool Used, bool Wet, bool Dry);

/// <summary>What a person should know, and of which reading, by its place; null where it is of none.</summary>
/// <param name="Note">The note.</param>
/// <param name="Reading">Place among the readings.</param>
public sealed record OutlookNote(
    [property: System.Text.Json.Serialization.JsonConverter(typeof(Records.KebabCaseEnumConverter<ForecastNote>))] ForecastNote Note, int? Reading);
