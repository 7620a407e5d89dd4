namespace Swardloop.Workshop.Api;

/// <summary>A page of the watch list.</summary>
/// <param name="Entries">Yards, the earliest date first; those without one after them.</param>
/// <param name="Next">What to ask for the next page with; null at the end.</param>
/// <param name="Total">All yards of the list.</param>
/// <param name="Computing">How many of them are still to be computed.</param>
public sealed record WatchPage(IReadOnlyList<WatchEntry> Entries, string? Next, int Total, int Computing);
