using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Forecasting;
using Swardloop.Core.Reach;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Server.Files;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Watching;

namespace Swardloop.Server.Watching;

/// <summary>Computes when yards lose reception, and keeps it: once for each state of a yard's drawing and readings. Every result is written on the condition that the yard is still
/// out of date since the same change, so that work done twice, or cut off in the middle, comes to the same.</summary>
internal static class WatchWork
{
    // Another forecast of the same readings has another number here, so that all are computed anew.
    private const string Model = "1";

    /// <summary>What a yard's forecast is computed from.</summary>
    /// <param name="Yard">The yard; null where its drawing cannot be read.</param>
    /// <param name="Readings">Its readings.</param>
    /// <param name="Drawing">Digest of the drawing.</param>
    /// <param name="Digest">Digest of it all.</param>
    public sealed record Input(Yard? Yard, YardReadings? Readings, string Drawing, string Digest);

    /// <summary>A result, and the limits it rests on.</summary>
    public sealed record Output(WatchResult Result, ReceptionLimits? Limits);

    /// <summary>Reads what a yard's forecast is computed from; null when the yard is not there.</summary>
    public static async Task<Input?> ReadAsync(WorkshopDatabase database, Guid yard, CancellationToken cancellation)
    {
        List<StoredRecord> stored = await database.Records.AsNoTracking()
            .Where(record => record.Yard == yard && (record.Kind == RecordKind.Yard || record.Kind == RecordKind.Case || record.Kind == RecordKind.Observation)).ToListAsync(cancellation);
        ILookup<RecordKind, RecordState> states = stored.ToLookup(record => record.Kind, Journal.StateOf);
        if (states[RecordKind.Yard].SingleOrDefault() is not { } state)
        {
            return null;
        }

        string drawing = DigestOf(state.Value("file")?.GetRawText() ?? "");
        Checked<YardFile> file = FileEndpoints.YardOf(state);
        if (!file.IsGood)
        {
            return new(null, null, drawing, DigestOf($"{Model} {drawing}"));
        }

        YardReadings readings = YardReadings.Of(file.Value.Yard, states[RecordKind.Case], states[RecordKind.Observation]);
        StringBuilder all = new($"{Model} {drawing} {readings.IsMendedSince} {readings.BrokenOn:O}");
        foreach (LoopRecord one in readings.Readings)
        {
            all.Append(CultureInfo.InvariantCulture, $"\n{one.At:O} {one.Ohms:R} {one.LeadOhms:R} {one.Meter.LimitOhms(one.Ohms):R} {one.Wet} {one.Dry} {one.Frost} {one.Moved} {one.Begins}");
        }

        return new(file.Value.Yard, readings, drawing, DigestOf(all.ToString()));
    }

    /// <summary>Computes.</summary>
    /// <param name="input">From what.</param>
    /// <param name="line">What is kept of the yard: limits of the same drawing are not computed again.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static Output Compute(Input input, WatchLine line, CancellationToken cancellation)
    {
        if (input.Yard is not { } yard)
        {
            return new(WatchResult.NoDrawing, null);
        }

        // A yard that nobody measured needs no reach.
        if (input.Readings!.Readings.Count == 0 || input.Readings.IsMendedSince)
        {
            return new(WatchResult.Of(yard, input.Readings, default), null);
        }

        ReceptionLimits limits = line.LimitsOf == input.Drawing
            ? new(line.WeakestLimitOhms, line.FivePercentLimitOhms, line.LimitDeviationOhms)
            : Forecaster.LimitsOf(yard, new LoopReach(yard, cancellation: cancellation));
        return new(WatchResult.Of(yard, input.Readings, limits), limits);
    }

    /// <summary>Writes a result, unless the yard has changed since; null: nothing else than before is to be written.</summary>
    /// <returns>Whether it was written.</returns>
    public static async Task<bool> KeepAsync(WorkshopDatabase database, WatchLine line, Input? input, Output? output, WriteTurn turn, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        IQueryable<WatchLine> still = database.Watch.Where(one => one.Yard == line.Yard && one.StaleSince == line.StaleSince);
        if (input is null || output is null)
        {
            return await still.ExecuteUpdateAsync(set => set.SetProperty(one => one.StaleSince, (long?)null), cancellation) > 0;
        }

        WatchResult result = output.Result;
        (int Rank, DateOnly? Day) weakest = result.Place(byFivePercent: false), fivePercent = result.Place(byFivePercent: true);
        string byWeakest = WatchOrder.Of(weakest.Rank, weakest.Day, line.Yard), byFivePercent = WatchOrder.Of(fivePercent.Rank, fivePercent.Day, line.Yard);
        string state = WireName.Of(result.State);
        string? forecast = result.Forecast is { } whole ? JsonSerializer.Serialize(whole, WorkshopJson.Default.OutlookForecast) : null;
        string? weakestDates = Written(result.Weakest), fivePercentDates = Written(result.FivePercent);
        string? limitsOf = output.Limits is null ? line.LimitsOf : input.Drawing;
        ReceptionLimits limits = output.Limits ?? new(line.WeakestLimitOhms, line.FivePercentLimitOhms, line.LimitDeviationOhms);
        return await still.ExecuteUpdateAsync(set => set
            .SetProperty(one => one.ByWeakest, byWeakest)
            .SetProperty(one => one.ByFivePercent, byFivePercent)
            .SetProperty(one => one.State, state)
            .SetProperty(one => one.Counted, result.Counted)
            .SetProperty(one => one.Readings, result.Readings)
            .SetProperty(one => one.LastReadOn, result.LastReadOn)
            .SetProperty(one => one.IsOdd, result.IsOdd)
            .SetProperty(one => one.Weakest, weakestDates)
            .SetProperty(one => one.FivePercent, fivePercentDates)
            .SetProperty(one => one.Forecast, forecast)
            .SetProperty(one => one.LimitsOf, limitsOf)
            .SetProperty(one => one.WeakestLimitOhms, limits.WeakestOhms)
            .SetProperty(one => one.FivePercentLimitOhms, limits.FivePercentOhms)
            .SetProperty(one => one.LimitDeviationOhms, limits.DeviationOhms)
            .SetProperty(one => one.ComputedFrom, input.Digest)
            .SetProperty(one => one.StaleSince, (long?)null), cancellation) > 0;
    }

    private static string? Written(OutlookDates? dates) => dates is null ? null : JsonSerializer.Serialize(dates, WorkshopJson.Default.OutlookDates);

    private static string DigestOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
