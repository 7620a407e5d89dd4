using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>One change in a backup, as the journal holds it.</summary>
public sealed record KeptEntry(long Version, string By, DateTimeOffset TakenAt, Change Change);
