using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>A record as its changes add up to it; can be made again from the journal.</summary>
public sealed class StoredRecord
{
    /// <summary>The record.</summary>
    public Guid Id { get; set; }

    /// <summary>Its kind.</summary>
    public RecordKind Kind { get; set; }

    /// <summary>Number of its last change.</summary>
    public long Version { get; set; }

    /// <summary>The yard it belongs to; of a yard, the yard itself; null for none.</summary>
    public Guid? Yard { get; set; }

    /// <summary>The case it belongs to; of a case, the case itself; null for none.</summary>
    public Guid? Case { get; set; }

    /// <summary>The record as JSON.</summary>
    public string Json { get; set; } = "";
}
