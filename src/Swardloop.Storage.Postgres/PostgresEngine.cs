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
    private const string Channel = "swardloop_changes";

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

                while (true)
                {
                    await connection.WaitAsync(cancellation);
                }
            }
            catch (Exception fault) when (fault is NpgsqlException or IOException && !cancellation.IsCancellationRequested)
            {
                // The database went away; pages read what came meanwhile when they next ask.
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
                    _ => null,
                };
            }

            if (inner is NpgsqlException { InnerException: System.Net.Sockets.SocketException or IOException })
            {
                return "the database cannot be reached";
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
