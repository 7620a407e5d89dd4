namespace Swardloop.Storage;

/// <summary>The one row that says what this database is and how far its journal has come.</summary>
public sealed class WorkshopMark
{
    /// <summary>The row's only id.</summary>
    public const int TheOne = 1;

    /// <summary>Always <see cref="TheOne"/>.</summary>
    public int Id { get; set; } = TheOne;

    /// <summary>Number of the last change. Raised first thing in every writing transaction, which so holds the row until it ends: numbers
    /// become visible in their order, and a reader never skips one that is written later.</summary>
    public long LastVersion { get; set; }

    /// <summary>Identity of the workshop's data: made with the database, kept through backup and restore.</summary>
    public Guid Workshop { get; set; }

    /// <summary>Whether this is the demo workshop.</summary>
    public bool IsDemo { get; set; }

    /// <summary>The one-time code for the first account; null once there is one.</summary>
    public string? FirstAccountCode { get; set; }
}
