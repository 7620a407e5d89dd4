using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>One change of a record as the server took it in.</summary>
/// <param name="Version">Its number.</param>
/// <param name="By">Who made it.</param>
/// <param name="TakenAt">When the server took it in.</param>
/// <param name="Change">The change.</param>
public sealed record HistoryEntry(long Version, string By, DateTimeOffset TakenAt, Change Change);
