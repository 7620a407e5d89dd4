using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage;

namespace Swardloop.Storage.Sqlite;

/// <summary>A workshop in one SQLite file of a data folder.</summary>
/// <param name="file">The database file; see <see cref="MakeFile"/>.</param>
public sealed class SqliteEngine(string file) : IDatabaseEngine, IDisposable
{
    /// <summary>Name of the database file in a data folder.</summary>
    public const string FileName = "workshop.db";

    // WAL lets readers read while one writes.
    private const string JournalMode = "PRAGMA journal_mode=WAL; ";

    // EWOULDBLOCK, and ERROR_SHARING_VIOLATION, as .NET reports them.
    private static readonly int FileIsLocked = OperatingSystem.IsWindows() ? unchecked((int)0x80070020) : 11;

    private const int DiskFull = 13, ReadOnly = 8, CannotOpen = 14, InputOutput = 10, Corrupt = 11, NotADatabase = 26;

    /// <summary>How the file is opened. One that is gone is an error: a new one in its place would look like a workshop that forgot everything.</summary>
    public string ConnectionString { get; } = new SqliteConnectionStringBuilder
    {
        DataSource = file,
        Mode = SqliteOpenMode.ReadWrite,
        ForeignKeys = true,
        DefaultTimeout = 30,
        Pooling = true,
    }.ToString();

    private FileIdentity? _identity;

    /// <inheritdoc/>
    public string Place => file;

    /// <summary>Whether a workshop is there. A file of zero bytes holds none: an earlier program left it when its first start was cut off.</summary>
    /// <exception cref="InvalidDataException">The file is empty though a log of changes lies beside it: its content was lost.</exception>
    public bool IsThere
    {
        get
        {
            FileInfo there = new(file), log = new(file + "-wal");
            return there switch
            {
                { Exists: false } => false,
                { Length: > 0 } => true,
                _ => log is { Exists: true, Length: > 0 }
                    ? throw new InvalidDataException("the database file is empty though it has a log of changes: its content was lost")
                    : false,
            };
        }
    }

    /// <inheritdoc/>
    public bool BringsNews => false;

    /// <summary>Makes a database beside the place, fills it, and gives it its name when it is whole: a start that is cut off leaves none.</summary>
    /// <param name="fill">Makes its tables and what belongs in them, by the engine given.</param>
    /// <exception cref="SqliteException">It cannot be made.</exception>
    public async Task MakeAsync(Func<SqliteEngine, Task> fill)
    {
        string path = file + ".new";
        using SqliteEngine beside = new(path);
        Delete(path); // of a start that was cut off
        try
        {
            beside.MakeFile();
            await fill(beside);
            beside.LetGo(); // the last connection that closes writes the log of changes into the file
            Delete(file);
            Durable.Rename(path, file);
        }
        finally
        {
            beside.LetGo();
            Delete(path);
        }
    }

    /// <summary>Takes the file for its own from now on: everything is refused once another one stands in its place. For a server that runs; the
    /// folder's lock keeps a second one away.</summary>
    public void HoldOn() => _identity ??= new(file, ConnectionString);

    /// <inheritdoc/>
    public void Dispose() => LetGo();

    private void MakeFile()
    {
        Durable.NewFile(file).Dispose();
        KeepLog();
    }

    /// <summary>Sets the file to keep a log of changes beside it, as a copy made by other programs does not.</summary>
    /// <exception cref="SqliteException">It cannot be written.</exception>
    public void KeepLog()
    {
        using SqliteConnection connection = new(new SqliteConnectionStringBuilder(ConnectionString) { Pooling = false }.ToString());
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        // Kept in the file: whoever only reads it, as a migration does first, could not set it.
        command.CommandText = JournalMode;
        command.ExecuteNonQuery();
    }

    private static void Delete(string path)
    {
        foreach (string part in (string[])[path, path + "-wal", path + "-shm"])
        {
            File.Delete(part);
        }
    }

    /// <summary>Closes connections that were kept for later, so that the file can be moved or deleted.</summary>
    public void LetGo()
    {
        _identity?.Dispose();
        _identity = null;
        using SqliteConnection connection = new(ConnectionString);
        SqliteConnection.ClearPool(connection);
    }

    /// <inheritdoc/>
    public void Configure(DbContextOptionsBuilder options) => options
        .UseSqlite(ConnectionString, sqlite => sqlite.MigrationsAssembly(typeof(SqliteEngine).Assembly.GetName().Name))
        .AddInterceptors(new Opened(file, () => _identity), new Committing(() => _identity));

    /// <inheritdoc/>
    /// <remarks>The library locks by a row in a table, and whoever is killed leaves it there for ever: every later start would wait for it without end
    /// (decision 0082). So nothing is locked when nothing is to be done; and who has the lock of a file, which goes with its process, clears the table first.</remarks>
    public async Task BringUpToDateAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        if (!(await database.Database.GetPendingMigrationsAsync(cancellation)).Any())
        {
            return;
        }

        using FileStream alone = await AloneAsync(cancellation);
        await database.Database.ExecuteSqlRawAsync("DROP TABLE IF EXISTS \"__EFMigrationsLock\"", cancellation);
        await database.Database.MigrateAsync(cancellation);
    }

    private async Task<FileStream> AloneAsync(CancellationToken cancellation)
    {
        while (true)
        {
            try
            {
                return Durable.NewFile(file + ".upgrade", FileMode.OpenOrCreate, FileOptions.DeleteOnClose);
            }
            catch (IOException fault) when (fault.HResult == FileIsLocked)
            {
                await Task.Delay(TimeSpan.FromMilliseconds(100), cancellation);
            }
        }
    }

    /// <inheritdoc/>
    public async Task<IDbContextTransaction> SnapshotAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        await database.Database.OpenConnectionAsync(cancellation);
        SqliteConnection connection = (SqliteConnection)database.Database.GetDbConnection();
        // Deferred: takes no turn as a writer. The first read fixes the moment.
        IDbContextTransaction transaction = (await database.Database.UseTransactionAsync(connection.BeginTransaction(deferred: true), cancellation))!;
        await database.Mark.CountAsync(cancellation);
        return transaction;
    }

    /// <inheritdoc/>
    public Task AnnounceAsync(WorkshopDatabase database, ChangeNotice notice, CancellationToken cancellation) => Task.CompletedTask;

    /// <inheritdoc/>
    public Task ListenAsync(ChangeNews news, CancellationToken cancellation) => Task.CompletedTask;

    /// <inheritdoc/>
    public async Task<IReadOnlyList<string>> WipeFreedAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        await database.Database.ExecuteSqlRawAsync("VACUUM", cancellation);
        // The log of changes still holds pages of before: put into the file and cut to nothing. A reader that is at it makes that wait.
        bool isCut = false;
        for (int attempt = 0; attempt < 10 && !isCut; attempt++)
        {
            await database.Database.OpenConnectionAsync(cancellation);
            await using DbCommand command = database.Database.GetDbConnection().CreateCommand();
            command.CommandText = "PRAGMA wal_checkpoint(TRUNCATE)";
            await using DbDataReader answer = await command.ExecuteReaderAsync(cancellation);
            isCut = await answer.ReadAsync(cancellation) && answer.GetInt32(0) == 0;
            await database.Database.CloseConnectionAsync();
        }

        // What a start that was cut off or a swapped file left lies beside it.
        string[] own = isCut ? [file, file + "-wal", file + "-shm"] : [file, file + "-shm"];
        return [.. Directory.EnumerateFiles(Path.GetDirectoryName(file)!, Path.GetFileNameWithoutExtension(file) + ".*").Except(own).Select(path => Path.GetFileName(path)).Order(StringComparer.Ordinal)];
    }

    /// <inheritdoc/>
    public string? WordsFor(Exception fault)
    {
        for (Exception? inner = fault; inner is not null; inner = inner.InnerException)
        {
            if (inner is DatabaseReplacedException)
            {
                return inner.Message;
            }

            if (inner is SqliteException sqlite)
            {
                return sqlite.SqliteErrorCode switch
                {
                    DiskFull => "the disk is full, nothing more can be kept until there is room",
                    ReadOnly => "the data folder may only be read, nothing can be kept in it",
                    CannotOpen => "the database file is gone or cannot be opened",
                    InputOutput => "the disk reports an error (it may be full or broken)",
                    Corrupt or NotADatabase => "the file is no database, or a damaged one: restore a backup",
                    _ => null,
                };
            }
        }

        return null;
    }

    private sealed class Committing(Func<FileIdentity?> identity) : DbTransactionInterceptor
    {
        public override InterceptionResult TransactionCommitting(DbTransaction transaction, TransactionEventData eventData, InterceptionResult result)
        {
            identity()?.CheckPath();
            return result;
        }

        public override ValueTask<InterceptionResult> TransactionCommittingAsync(
            DbTransaction transaction, TransactionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default) =>
            ValueTask.FromResult(TransactionCommitting(transaction, eventData, result));
    }

    private sealed class Opened(string file, Func<FileIdentity?> identity) : DbConnectionInterceptor
    {
        // FULL waits for the disk at every commit: what is answered as kept survives a power cut. What is deleted is overwritten with zeros.
        private const string Pragmas = JournalMode + "PRAGMA synchronous=FULL; PRAGMA busy_timeout=30000; PRAGMA secure_delete=ON;";

        // What is set stays with a connection that is kept for the next who asks, and setting it again costs more than a short read.
        private readonly ConditionalWeakTable<object, object> _set = [];

        // A connection that was kept would go on writing into a file that nobody finds any more.
        public override InterceptionResult ConnectionOpening(DbConnection connection, ConnectionEventData eventData, InterceptionResult result)
        {
            identity()?.CheckPath();
            return File.Exists(file) ? result : throw new SqliteException($"There is no file {file}.", CannotOpen);
        }

        public override ValueTask<InterceptionResult> ConnectionOpeningAsync(
            DbConnection connection, ConnectionEventData eventData, InterceptionResult result, CancellationToken cancellationToken = default) =>
            ValueTask.FromResult(ConnectionOpening(connection, eventData, result));

        public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
        {
            if (((SqliteConnection)connection).Handle is { } handle && !_set.TryGetValue(handle, out _))
            {
                using DbCommand command = connection.CreateCommand();
                command.CommandText = Pragmas;
                command.ExecuteNonQuery();
                _set.AddOrUpdate(handle, this);
            }

            identity()?.CheckMark((SqliteConnection)connection);
        }

        // SQLite knows nothing to wait for.
        public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken)
        {
            ConnectionOpened(connection, eventData);
            return Task.CompletedTask;
        }
    }
}
