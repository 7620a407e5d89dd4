using Microsoft.EntityFrameworkCore;

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

    /// <summary>Sends a notice to the other servers of the workshop when the running transaction is committed.</summary>
    Task AnnounceAsync(WorkshopDatabase database, ChangeNotice notice, CancellationToken cancellation);

    /// <summary>Passes on what other servers announce, until cancelled.</summary>
    Task ListenAsync(ChangeNews news, CancellationToken cancellation);

    /// <summary>What the storage itself could not do, in plain words for the person who keeps the server: disk full, read-only; null when
    /// the fault is of another kind.</summary>
    string? WordsFor(Exception fault);
}
