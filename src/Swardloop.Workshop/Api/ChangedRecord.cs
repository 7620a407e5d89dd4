using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>News that a record changed: data of the server-sent event <c>change</c>.</summary>
public sealed record ChangedRecord(long Version, Guid Record, RecordKind Kind);
