using Swardloop.Core.Forecasting;
using Swardloop.Core.Yards;
using Swardloop.Workshop.Api;

namespace Swardloop.Workshop.Watching;

/// <summary>What the watch list says of a yard, computed from its drawing and its readings alone: no clock is read, so that the same readings give the same dates.</summary>
/// <param name="State">What can be said.</param>
/// <param name="Counted">Readings that the dates rest on.</param>
/// <param name="Readings">All of them.</param>
/// <param name="LastReadOn">Day of the last; null for none.</param>
/// <param name="IsOdd">Whether one differs by more than meter, temperature and weather allow.</param>
/// <param name="Weakest">When the weakest spot is lost; null where nothing can be said, or a sound loop does not reach it either.</param>
/// <param name="FivePercent">The same for 5 % of the lawn.</param>
/// <param name="Forecast">All of the forecast; null where there is none.</param>
public sealed record WatchResult(
    WatchState State, int Counted, int Readings, DateOnly? LastReadOn, bool IsOdd, OutlookDates? Weakest, OutlookDates? FivePercent, OutlookForecast? Forecast)
{
    /// <summary>From so many readings on that count, a date says something of this loop.</summary>
    public const int EnoughReadings = 3;

    /// <summary>The newest readings of a yard that are looked at: what a forecast takes to compute grows with them.</summary>
    public const int MostReadings = 200;

    /// <summary>Of a yard without a drawing that can be computed.</summary>
    public static WatchResult NoDrawing { get; } = new(WatchState.NoDrawing, 0, 0, null, false, null, null, null);

    /// <summary>Computes.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="read">Its readings.</param>
    /// <param name="limits">At which loop it loses reception.</param>
    public static WatchResult Of(Yard yard, YardReadings read, ReceptionLimits limits)
    {
        int all = read.Readings.Count;
        DateOnly? last = all == 0 ? read.BrokenOn : Later(read.Readings[^1].At, read.BrokenOn);
        if (all == 0 || read.IsMendedSince)
        {
            WatchState none = read.BrokenOn is not null ? WatchState.Broken : read.IsMendedSince ? WatchState.MendedSince : WatchState.Unmeasured;
            return new(none, 0, all, last, false, null, null, null);
        }

        ReceptionForecast forecast = Forecaster.Of(
            yard, [.. read.Readings.TakeLast(MostReadings)], limits.WeakestOhms, limits.FivePercentOhms, limits.DeviationOhms, ForecastPrior.Stated);
        int counted = forecast.Readings.Count(reading => reading.Used);
        double sound = Forecaster.SoundAt20C(yard);
        OutlookDates? weakest = limits.WeakestOhms > sound ? Dates(forecast.WeakestLost) : null, fivePercent = limits.FivePercentOhms > sound ? Dates(forecast.FivePercentLost) : null;
        WatchState state = read.BrokenOn is not null ? WatchState.Broken
            : weakest is null && fivePercent is null ? WatchState.Layout
            : counted < EnoughReadings ? WatchState.Few
            : WatchState.Dated;
        return new(state, counted, all, last, forecast.Notes.Any(note => note.Note == ForecastNote.OddReading), weakest, fivePercent, Whole(forecast));
    }

    /// <summary>Where the yard stands in the list: those that lose reception, by their date; then those that keep it for twenty years; then those of whom too little is known.</summary>
    /// <param name="byFivePercent">By the date of 5 % of the lawn instead of the weakest spot's.</param>
    public (int Rank, DateOnly? Day) Place(bool byFivePercent)
    {
        OutlookDates? dates = byFivePercent ? FivePercent ?? Weakest : Weakest ?? FivePercent;
        return State switch
        {
            WatchState.Broken => (0, LastReadOn),
            WatchState.Dated => dates!.Median is { } day ? (0, day) : (1, dates.Low),
            // Lost by its level already, whatever is not known of its growth.
            WatchState.Few => Forecast!.Notes.Any(note => note.Note == ForecastNote.AlreadyLost) ? (0, dates!.Median) : (2, dates!.Median),
            WatchState.MendedSince => (3, LastReadOn),
            WatchState.Unmeasured => (4, null),
            WatchState.Layout => (5, null),
            WatchState.NoDrawing => (6, null),
            _ => throw new ArgumentOutOfRangeException(nameof(byFivePercent), State, "Has no place."),
        };
    }

    private static DateOnly? Later(DateOnly one, DateOnly? other) => other > one ? other : one;

    private static OutlookDates Dates(LossDate lost) => new(lost.Low, lost.Median, lost.High);

    private static OutlookForecast Whole(ReceptionForecast forecast) => new(
        [.. forecast.Readings.Select(reading => new OutlookReading(
            reading.Record.At, reading.Record.Ohms, Rounded(reading.OhmsAt20C), Rounded(reading.DeviationOhms), Math.Round(reading.TemperatureCelsius, 1),
            reading.TemperatureMeasured, reading.Used, reading.Record.Wet, reading.Record.Dry))],
        Band(forecast.LevelOhms), Band(forecast.GrowthOhmsPerYear), Limit(forecast.WeakestLimitOhms), Limit(forecast.FivePercentLimitOhms),
        Dates(forecast.WeakestLostAllowing), Dates(forecast.FivePercentLostAllowing),
        forecast.WetExcess is { } wet ? new(Rounded(wet.Ohms), Rounded(wet.Deviation)) : null,
        [.. forecast.Notes.Select(note => new OutlookNote(note.Note, note.Reading))]);

    private static OutlookBand Band((double Low, double Median, double High) of) => new(Rounded(of.Low), Rounded(of.Median), Rounded(of.High));

    // Fewer digits than the machine has: the same readings give the same text although logarithms differ in their last bit from machine to machine.
    private static double Rounded(double ohms) => Math.Round(Math.Clamp(ohms, -1e9, 1e9), 4);

    private static double? Limit(double? ohms) => ohms is { } limit ? Rounded(limit) : null;
}
