using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Postgres;

/// <summary>A workshop in a PostgreSQL database; several servers may share it.</summary>
/// <param name="connectionString">Npgsql's connection string: <c>Host=…;Database=…;Username=…</c>.</param>
public sealed class PostgresEngine(string connectionString) : IDatabaseEngine
{
    private const string Channel = "swardloop_changes", CannotBeReached = "the database cannot be reached";

    /// <inheritdoc/>
    public string Place
    {
        get
        {
            NpgsqlConnectionStringBuilder parts = new(connectionString);
            return $"PostgreSQL at {parts.Host}, database {parts.Database ?? parts.Username}";
        }
    }

    /// <inheritdoc/>
    public bool BringsNews => true;

    /// <inheritdoc/>
    public void Configure(DbContextOptionsBuilder options) =>
        options.UseNpgsql(connectionString, postgres => postgres.MigrationsAssembly(typeof(PostgresEngine).Assembly.GetName().Name));

    /// <inheritdoc/>
    /// <remarks>Its lock is one of the database's own and goes with the connection.</remarks>
    public Task BringUpToDateAsync(WorkshopDatabase database, CancellationToken cancellation) => database.Database.MigrateAsync(cancellation);

    /// <inheritdoc/>
    public Task<IDbContextTransaction> SnapshotAsync(WorkshopDatabase database, CancellationToken cancellation) =>
        database.Database.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead, cancellation);

    /// <inheritdoc/>
    public Task AnnounceAsync(WorkshopDatabase database, ChangeNotice notice, CancellationToken cancellation)
    {
        string text = string.Create(CultureInfo.InvariantCulture, $"{notice.Version} {notice.Record} {notice.Kind}");
        return database.Database.ExecuteSqlAsync($"SELECT pg_notify({Channel}, {text})", cancellation);
    }

    /// <inheritdoc/>
    public async Task ListenAsync(ChangeNews news, CancellationToken cancellation)
    {
        bool wasAway = false;
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                // Keepalive: a connection that only waits would not notice that the other end is gone.
                string waiting = new NpgsqlConnectionStringBuilder(connectionString) { KeepAlive = 30, Pooling = false }.ToString();
                await using NpgsqlConnection connection = new(waiting);
                await connection.OpenAsync(cancellation);
                connection.Notification += (_, notification) => Pass(notification.Payload, news);
                await using (NpgsqlCommand listen = new($"LISTEN {Channel}", connection))
                {
                    await listen.ExecuteNonQueryAsync(cancellation);
                }

                if (wasAway)
                {
                    // What others took in while nobody listened here: the newest of it stands for all, since pages read on from the number they know.
                    await using NpgsqlCommand newest = new("""SELECT "Version" || ' ' || "Record" || ' ' || "Kind" FROM "Journal" ORDER BY "Version" DESC LIMIT 1""", connection);
                    if (await newest.ExecuteScalarAsync(cancellation) is string text)
                    {
                        Pass(text, news);
                    }
                }

                while (true)
                {
                    await connection.WaitAsync(cancellation);
                }
            }
#pragma warning disable CA1031 // However the database went away: pages must hear again when it is back, and the server must not stop over it.
            catch (Exception) when (!cancellation.IsCancellationRequested)
#pragma warning restore CA1031
            {
                wasAway = true;
                await Task.Delay(TimeSpan.FromSeconds(1), cancellation);
            }
        }
    }

    /// <inheritdoc/>
    /// <remarks>Tables are rewritten into new files. The server's own log of changes, its archive and its copies are its keeper's.</remarks>
    public async Task<IReadOnlyList<string>> WipeFreedAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        await database.Database.ExecuteSqlRawAsync(
            """VACUUM (FULL) "Journal", "Records", "Owners", "Yards", "Cases", "Visits", "Photos" """, cancellation);
        return [];
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

            if (inner is PostgresException postgres)
            {
                return postgres.SqlState switch
                {
                    PostgresErrorCodes.DiskFull => "the database's disk is full, nothing more can be kept until there is room",
                    PostgresErrorCodes.ReadOnlySqlTransaction => "the database may only be read, nothing can be kept in it",
                    PostgresErrorCodes.InvalidPassword or PostgresErrorCodes.InvalidAuthorizationSpecification => "the database refuses the user or password",
                    PostgresErrorCodes.InvalidCatalogName => "there is no such database",
                    // It is being stopped, comes back from a crash, or starts; its own connections are used up.
                    PostgresErrorCodes.AdminShutdown or PostgresErrorCodes.CrashShutdown or PostgresErrorCodes.CannotConnectNow or PostgresErrorCodes.TooManyConnections => CannotBeReached,
                    _ => null,
                };
            }

            // A transaction whose connection broke between two commands is "already completed", or gone: the library says so by exceptions of the general kind.
            if (inner is NpgsqlException { InnerException: System.Net.Sockets.SocketException or IOException or TimeoutException } or InvalidOperationException { Source: "Npgsql", InnerException: null })
            {
                return CannotBeReached;
            }
        }

        return null;
    }

    private static void Pass(string text, ChangeNews news)
    {
        if (text.Split(' ') is [var number, var record, var kind]
            && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out long version)
            && Guid.TryParse(record, out Guid id) && Enum.TryParse(kind, out RecordKind of))
        {
            news.Tell(new(version, id, of));
        }
    }
}
