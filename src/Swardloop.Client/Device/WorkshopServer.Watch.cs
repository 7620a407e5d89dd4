using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <content>The watch list.</content>
public sealed partial class WorkshopServer
{
    /// <summary>A page of the watch list.</summary>
    /// <param name="byFivePercent">By the date of 5 % of the lawn instead of the weakest spot's.</param>
    /// <param name="after">The earlier page's <see cref="WatchPage.Next"/>; null for the first.</param>
    public Task<WatchPage> WatchAsync(bool byFivePercent, string? after) =>
        GetAsync($"api/watch?by={(byFivePercent ? "five-percent" : "weakest")}{(after is null ? "" : $"&after={after}")}", Json.WatchPage);

    /// <summary>When a yard loses reception.</summary>
    public Task<YardOutlook> OutlookAsync(Guid yard) => GetAsync($"api/yards/{yard}/outlook", Json.YardOutlook);
}
