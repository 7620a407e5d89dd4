using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>That a record changed.</summary>
/// <param name="Version">Number of the change.</param>
/// <param name="Record">The record.</param>
/// <param name="Kind">Its kind.</param>
public sealed record ChangeNotice(long Version, Guid Record, RecordKind Kind);
