namespace Swardloop.Workshop.Api;

/// <summary>Today's work.</summary>
/// <param name="Version">The workshop's last change when this was put together.</param>
/// <param name="Cases">Open cases, in the order in which promise or patience runs out.</param>
/// <param name="Visits">Visits of the day and overdue ones.</param>
/// <param name="Quiet">Yards about to go quiet, least to spare first.</param>
/// <param name="MoreCases">Open cases beyond those listed.</param>
public sealed record Bench(long Version, IReadOnlyList<BenchEntry> Cases, IReadOnlyList<BenchVisit> Visits, IReadOnlyList<QuietYard> Quiet, int MoreCases);
