using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Swardloop.Storage;

/// <summary>What differs between the databases that a workshop can be kept in.</summary>
public interface IDatabaseEngine
{
    /// <summary>Where the data are, as a person would say it; without passwords.</summary>
    string Place { get; }

    /// <summary>Whether notices reach this process's listeners by <see cref="ListenAsync"/>, its own ones too.</summary>
    bool BringsNews { get; }

    /// <summary>Points a context at the database.</summary>
    void Configure(DbContextOptionsBuilder options);

    /// <summary>Makes the tables, or brings those of an older program up to date; a run that was cut off never keeps the next one out.</summary>
    Task BringUpToDateAsync(WorkshopDatabase database, CancellationToken cancellation);

    /// <summary>Begins to read as if nobody wrote: everything read until the returned transaction ends is of one moment. Writers go on meanwhile.</summary>
    Task<IDbContextTransaction> SnapshotAsync(WorkshopDatabase database, CancellationToken cancellation);

    /// <summary>Sends a notice to the other servers of the workshop when the running transaction is committed.</summary>
    Task AnnounceAsync(WorkshopDatabase database, ChangeNotice notice, CancellationToken cancellation);

    /// <summary>Passes on what other servers announce, until cancelled.</summary>
    Task ListenAsync(ChangeNews news, CancellationToken cancellation);

    /// <summary>Writes the database anew, so that nothing that was erased is left in freed parts of its files. Outside any transaction.</summary>
    /// <returns>Names of files beside it that may still hold what was erased.</returns>
    Task<IReadOnlyList<string>> WipeFreedAsync(WorkshopDatabase database, CancellationToken cancellation);

    /// <summary>What the storage itself could not do, in plain words for the person who keeps the server: disk full, read-only; null when
    /// the fault is of another kind.</summary>
    string? WordsFor(Exception fault);
}
