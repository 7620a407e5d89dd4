using Swardloop.Workshop.Api;

namespace Swardloop.Server.BenchList;

/// <summary>In which order the open cases stand: as promise or patience runs out.</summary>
internal static class BenchOrder
{
    /// <summary>Cases promised for today or earlier, the oldest promise first; then those with new answers of the owner; then the others. Within
    /// each, whoever has waited longest since the last news stands first.</summary>
    /// <param name="cases">The open cases.</param>
    /// <param name="today">The day.</param>
    public static IEnumerable<BenchEntry> Sort(IEnumerable<BenchEntry> cases, DateOnly today) => cases
        .OrderBy(entry => Rank(entry, today))
        .ThenBy(entry => Rank(entry, today) == 0 ? entry.PromisedOn : null)
        .ThenBy(entry => entry.LastNewsAt ?? entry.OpenedAt)
        .ThenBy(entry => entry.Case);

    private static int Rank(BenchEntry entry, DateOnly today) => entry.PromisedOn <= today ? 0 : entry.NewFromOwner > 0 ? 1 : 2;
}
