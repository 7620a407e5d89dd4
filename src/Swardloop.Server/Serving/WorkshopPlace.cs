using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Storage;
using Swardloop.Storage.Postgres;
using Swardloop.Storage.Sqlite;

namespace Swardloop.Server.Serving;

/// <summary>Where a workshop's data are: a folder with one file, or a PostgreSQL database.</summary>
/// <param name="Folder">Folder of the SQLite file.</param>
/// <param name="ConnectionString">PostgreSQL's connection string; null for SQLite in the folder.</param>
/// <param name="IsDemo">Whether it is the demo workshop's place.</param>
internal sealed record WorkshopPlace(string Folder, string? ConnectionString, bool IsDemo)
{
    /// <summary>Reads it from a call's <c>--data</c>, <c>--demo</c> and <c>--database</c>.</summary>
    public static WorkshopPlace Of(Invocation call)
    {
        string folder = call.Value("--data")
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "swardloop");
        bool isDemo = call.Flag("--demo");
        string? connection = call.Value("--database") ?? (isDemo ? null : Environment.GetEnvironmentVariable("SWARDLOOP_DATABASE"));
        return new(Path.GetFullPath(isDemo ? Path.Combine(folder, "demo") : folder), connection is { Length: > 0 } ? connection : null, isDemo);
    }

    /// <summary>The engine for it.</summary>
    /// <exception cref="WrongInputException">The connection string is none.</exception>
    public IDatabaseEngine Engine()
    {
        try
        {
            return ConnectionString is null ? new SqliteEngine(Path.Combine(Folder, SqliteEngine.FileName)) : new PostgresEngine(ConnectionString);
        }
        catch (ArgumentException wrong)
        {
            throw new WrongInputException("--database", "", $"cannot be read: {wrong.Message}", "\"Host=…;Database=…;Username=…\"");
        }
    }

    /// <summary>Puts a demo of an earlier day away: its visits of the day would be long past.</summary>
    private static void RenewDemo(SqliteEngine engine)
    {
        if (!File.Exists(engine.Place))
        {
            return;
        }

        bool isOld;
        using (WorkshopDatabase database = new(Options(engine)))
        {
            // Only what says of itself that it is a demo is ever deleted; its identity holds the moment it was made.
            isOld = database.Database.GetAppliedMigrations().Any() && database.Mark.AsNoTracking().SingleOrDefault() is { IsDemo: true } mark
                && MadeAt(mark.Workshop).ToLocalTime().Date != TimeProvider.System.GetLocalNow().Date;
        }

        if (isOld)
        {
            engine.LetGo();
            foreach (string file in (string[])[engine.Place, engine.Place + "-wal", engine.Place + "-shm"])
            {
                File.Delete(file);
            }
        }
    }

    private static DateTimeOffset MadeAt(Guid version7) =>
        DateTimeOffset.FromUnixTimeMilliseconds(System.Buffers.Binary.BinaryPrimitives.ReadInt64BigEndian(version7.ToByteArray(bigEndian: true)) >>> 16);

    /// <summary>Whether a workshop may be there: for SQLite its file, for PostgreSQL always.</summary>
    public bool MayExist => ConnectionString is not null || new FileInfo(Path.Combine(Folder, SqliteEngine.FileName)) is { Exists: true, Length: > 0 };

    /// <summary>Opens a workshop that is there already.</summary>
    /// <exception cref="WrongInputException">There is none, or it cannot be opened.</exception>
    public async Task<(IDatabaseEngine Engine, PooledDbContextFactory<WorkshopDatabase> Databases)> OpenExistingAsync(CancellationToken cancellation)
    {
        if (!MayExist)
        {
            throw new WrongInputException(Folder, "", "there is no workshop in this folder", "the data folder of a workshop, by --data");
        }

        IDatabaseEngine engine = Engine();
        await OpenAsync(engine, cancellation);
        return (engine, new(Options(engine)));
    }

    /// <summary>Fills a place in which there is no workshop. It is filled as a whole or not at all: after any failure it is as it was.</summary>
    /// <param name="fill">Fills the database given, whose tables are there and empty.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <exception cref="WrongInputException">There is a workshop already, or the place cannot be used.</exception>
    public async Task<(IDatabaseEngine Engine, T Result)> FillAsync<T>(Func<WorkshopDatabase, Task<T>> fill, CancellationToken cancellation)
    {
        if (ConnectionString is null && MayExist)
        {
            throw new WrongInputException(Folder, "", "there is a workshop in this folder already", "an empty folder");
        }

        IDatabaseEngine engine = Engine();
        bool wasThere = Directory.Exists(Folder), isFilled = false;
        try
        {
            // No server may begin a workshop there meanwhile.
            using FolderLock? alone = ConnectionString is null ? FolderLock.Take(Folder) : null;
            T result = default!;
            if (engine is SqliteEngine sqlite)
            {
                FolderRights.Close(Folder);
                await sqlite.MakeAsync(async beside => result = await TablesAndFillAsync(beside));
            }
            else
            {
                result = await TablesAndFillAsync(engine);
            }

            isFilled = true;
            return (engine, result);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException || engine.WordsFor(fault) is not null)
        {
            throw new WrongInputException(engine.Place, "", engine.WordsFor(fault) ?? fault.Message.TrimEnd('.'), "a place that you may write to, with room");
        }
        finally
        {
            if (!isFilled && !wasThere && ConnectionString is null && Directory.Exists(Folder) && !Directory.EnumerateFileSystemEntries(Folder).Any())
            {
                Directory.Delete(Folder);
            }
        }

        async Task<T> TablesAndFillAsync(IDatabaseEngine into)
        {
            await using WorkshopDatabase database = new(Options(into));
            await into.BringUpToDateAsync(database, cancellation);
            return await fill(database);
        }
    }

    private static DbContextOptions<WorkshopDatabase> Options(IDatabaseEngine engine)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        engine.Configure(options);
        return options.Options;
    }

    /// <summary>Opens the database, brings its tables up to date, and makes sure that it is this kind of workshop's.</summary>
    /// <returns>Its mark.</returns>
    /// <exception cref="WrongInputException">It cannot be opened, or is a workshop of the other kind.</exception>
    public async Task<WorkshopMark> OpenAsync(IDatabaseEngine engine, CancellationToken cancellation)
    {
        try
        {
            if (IsDemo && engine is SqliteEngine file)
            {
                RenewDemo(file);
            }

            if (engine is SqliteEngine sqlite)
            {
                FolderRights.Close(Folder);
                if (!sqlite.IsThere)
                {
                    await sqlite.MakeAsync(beside => MarkAsync(beside, cancellation));
                }

                sqlite.KeepLog();
            }

            WorkshopMark mark = await MarkAsync(engine, cancellation);
            return mark.IsDemo == IsDemo
                ? mark
                : throw new WrongInputException(engine.Place, "", mark.IsDemo ? "is the demo workshop" : "is a real workshop, not the demo",
                    mark.IsDemo ? "another folder or database, or --demo" : "another folder or database for --demo");
        }
        catch (InvalidDataException fault)
        {
            throw new WrongInputException(engine.Place, "", $"{fault.Message}: restore a backup", "a whole workshop");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new WrongInputException(Folder, "", $"the data folder cannot be used: {fault.Message.TrimEnd('.')}", "a folder that you may write to, with room");
        }
        catch (Exception fault) when (engine.WordsFor(fault) is not null)
        {
            throw new WrongInputException(engine.Place, "", engine.WordsFor(fault)!, "a database that can be opened and written to");
        }
    }

    /// <summary>Brings the tables up to date, and fills them where they are new.</summary>
    private async Task<WorkshopMark> MarkAsync(IDatabaseEngine engine, CancellationToken cancellation)
    {
        DbContextOptions<WorkshopDatabase> options = Options(engine);
        await using WorkshopDatabase database = new(options);
        await engine.BringUpToDateAsync(database, cancellation);
        WorkshopMark? mark = await database.Mark.SingleOrDefaultAsync(cancellation);
        if (mark is null)
        {
            mark = new() { Workshop = Guid.CreateVersion7(), IsDemo = IsDemo, FirstAccountCode = IsDemo ? null : Accounts.FirstAccountCode.New() };
            database.Mark.Add(mark);
            if (IsDemo)
            {
                database.Users.Add(DemoPerson());
            }

            await database.SaveChangesAsync(cancellation);
        }

        if (IsDemo && mark is { IsDemo: true, LastVersion: 0 })
        {
            using WriteTurn turn = new();
            Journal journal = new(new PooledDbContextFactory<WorkshopDatabase>(options), engine, new(), turn, TimeProvider.System);
            await journal.FillAsync(Demo.DemoWorkshop.Changes(TimeProvider.System.GetLocalNow()), cancellation);
        }

        return mark;
    }

    /// <summary>The one person of the demo workshop: no password, see <c>GET /api/me</c>.</summary>
    private static Account DemoPerson() => new()
    {
        Id = Guid.CreateVersion7(),
        DisplayName = Demo.DemoWorkshop.Person,
        UserName = "wren@demo.invalid",
        NormalizedUserName = "WREN@DEMO.INVALID",
        Email = "wren@demo.invalid",
        NormalizedEmail = "WREN@DEMO.INVALID",
        Role = Workshop.Api.Role.Principal,
        SecurityStamp = Guid.NewGuid().ToString("N"),
    };
}
