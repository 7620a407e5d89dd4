using System.Text.Json;
using Swardloop.Client.Device;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Watching;

/// <summary>A visit to look at a yard in spring, before its mower starts to work.</summary>
public static class SpringVisit
{
    private const int FirstDay = 15, DaysToPrepare = 7, LastMonthAfterStart = 2;

    /// <summary>The day: the first weekday from the middle of the first month of spring on, half a year later south of the equator; within spring a week from now.</summary>
    /// <param name="today">The day it is.</param>
    /// <param name="latitudeDegrees">Where the yard is; null when not known, as in the north.</param>
    public static DateOnly On(DateOnly today, double? latitudeDegrees)
    {
        int month = latitudeDegrees < 0 ? 9 : 3;
        DateOnly start = new(today.Year, month, FirstDay), end = start.AddMonths(LastMonthAfterStart);
        DateOnly day = today > end ? start.AddYears(1) : today.AddDays(DaysToPrepare) > start ? today.AddDays(DaysToPrepare) : start;
        while (day.DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday)
        {
            day = day.AddDays(1);
        }

        return day;
    }

    /// <summary>Where a yard's drawing says it is; null when it does not.</summary>
    public static double? LatitudeOf(RecordState? yard) =>
        yard?.Value("file") is { ValueKind: JsonValueKind.Object } file && file.TryGetProperty("datum", out JsonElement datum) && datum.ValueKind == JsonValueKind.Object
            && datum.TryGetProperty("latitude", out JsonElement latitude) && latitude.ValueKind == JsonValueKind.Number ? latitude.GetDouble() : null;

    /// <summary>Plans it.</summary>
    /// <returns>The visit's record, by which it can be taken back.</returns>
    public static async Task<Guid> PlanAsync(ThisDevice device, Guid yard, DateOnly on, string note)
    {
        Guid visit = device.Replica.NewId(device.Now);
        Dictionary<string, JsonElement> set = new()
        {
            ["yard"] = Json.Text(yard.ToString()),
            ["on"] = Json.Text(on.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)),
            ["note"] = Json.Text(note),
        };
        await device.KeepAsync([device.Replica.ChangeOf(visit, RecordKind.Visit, set, device.Now)]).ConfigureAwait(true);
        return visit;
    }

    /// <summary>Takes it back: put away, as everything that was made is.</summary>
    public static Task TakeBackAsync(ThisDevice device, Guid visit) => device.ChangeAsync(visit, RecordKind.Visit, ("archived", Json.Flag(true)));
}
