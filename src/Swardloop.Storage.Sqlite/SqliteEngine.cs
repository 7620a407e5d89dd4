using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.EntityFrameworkCore.Storage;

namespace Swardloop.Storage.Sqlite;

/// <summary>A workshop in one SQLite file of a data folder.</summary>
/// <param name="file">The database file; see <see cref="MakeFile"/>.</param>
public sealed class SqliteEngine(string file) : IDatabaseEngine
{
    /// <summary>Name of the database file in a data folder.</summary>
    public const string FileName = "workshop.db";

    // WAL lets readers read while one writes.
    private const string JournalMode = "PRAGMA journal_mode=WAL; ";

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

    /// <inheritdoc/>
    public string Place => file;

    /// <inheritdoc/>
    public bool BringsNews => false;

    /// <summary>Makes the file, empty, where there is none; its tables come by migration.</summary>
    /// <exception cref="SqliteException">It cannot be made.</exception>
    public void MakeFile()
    {
        if (File.Exists(file))
        {
            return;
        }

        using SqliteConnection connection = new(new SqliteConnectionStringBuilder(ConnectionString) { Mode = SqliteOpenMode.ReadWriteCreate, Pooling = false }.ToString());
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        // Kept in the file: whoever only reads it, as a migration does first, could not set it.
        command.CommandText = JournalMode;
        command.ExecuteNonQuery();
    }

    /// <summary>Closes connections that were kept for later, so that the file can be moved or deleted.</summary>
    public void LetGo()
    {
        using SqliteConnection connection = new(ConnectionString);
        SqliteConnection.ClearPool(connection);
    }

    /// <inheritdoc/>
    public void Configure(DbContextOptionsBuilder options) => options
        .UseSqlite(ConnectionString, sqlite => sqlite.MigrationsAssembly(typeof(SqliteEngine).Assembly.GetName().Name))
        .AddInterceptors(new Opened(file));

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
    public string? WordsFor(Exception fault)
    {
        for (Exception? inner = fault; inner is not null; inner = inner.InnerException)
        {
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

    private sealed class Opened(string file) : DbConnectionInterceptor
    {
        // FULL waits for the disk at every commit: what is answered as kept survives a power cut.
        private const string Pragmas = JournalMode + "PRAGMA synchronous=FULL; PRAGMA busy_timeout=30000;";

        // What is set stays with a connection that is kept for the next who asks, and setting it again costs more than a short read.
        private readonly ConditionalWeakTable<object, object> _set = [];

        // A connection that was kept would go on writing into a file that nobody finds any more.
        public override InterceptionResult ConnectionOpening(DbConnection connection, ConnectionEventData eventData, InterceptionResult result) =>
            File.Exists(file) ? result : throw new SqliteException($"There is no file {file}.", CannotOpen);

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
        }

        // SQLite knows nothing to wait for.
        public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken)
        {
            ConnectionOpened(connection, eventData);
            return Task.CompletedTask;
        }
    }
}
