namespace Swardloop.Workshop.Api;

/// <summary>A yard on the watch list.</summary>
/// <param name="Yard">The yard.</param>
/// <param name="YardName">What it is called.</param>
/// <param name="OwnerName">Whose it is; null when nobody was named.</param>
/// <param name="Address">Where it is; null when not said.</param>
/// <param name="State">What can be said.</param>
/// <param name="Weakest">When the weakest spot loses reception; null where nothing can be said, or a sound loop does not reach it either.</param>
/// <param name="FivePercent">The same for 5 % of the lawn.</param>
/// <param name="Counted">Readings that the dates rest on.</param>
/// <param name="Readings">All of them.</param>
/// <param name="LastReadOn">Day of the last; null for none.</param>
/// <param name="IsOdd">Whether a reading differs from the others by more than meter, temperature and weather allow.</param>
/// <param name="IsComputing">Whether something changed since, and it is being computed anew.</param>
/// <param name="VisitOn">The next planned visit, from today on; null for none.</param>
public sealed record WatchEntry(
    Guid Yard, string YardName, string? OwnerName, string? Address, WatchState State, OutlookDates? Weakest, OutlookDates? FivePercent,
    int Counted, int Readings, DateOnly? LastReadOn, bool IsOdd, bool IsComputing, DateOnly? VisitOn);
