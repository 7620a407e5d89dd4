using Swardloop.Workshop.Records;

namespace Swardloop.Storage;

/// <summary>One change as it was taken in. Written once; only the erasing of personal data touches it again.</summary>
public sealed class JournalEntry
{
    /// <summary>Its number: 1, 2, 3 … in the order in which readers can see them, without gaps.</summary>
    public long Version { get; set; }

    /// <summary>The change's own id; unique.</summary>
    public Guid Change { get; set; }

    /// <summary>The record it is on.</summary>
    public Guid Record { get; set; }

    /// <summary>That record's kind.</summary>
    public RecordKind Kind { get; set; }

    /// <summary>Who made it, as shown beside its values.</summary>
    public string By { get; set; } = "";

    /// <summary>When the server took it in, UTC.</summary>
    public DateTimeOffset TakenAt { get; set; }

    /// <summary>The change as JSON.</summary>
    public string Json { get; set; } = "";
}
