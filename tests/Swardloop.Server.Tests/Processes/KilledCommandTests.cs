using System.Text;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Processes;

/// <summary>Commands that take a while, killed at any moment of it: backup, restore, forgetting, and a start that brings an older database up to date.
/// 2 kills of each in every run, 100 in the long one.</summary>
public sealed class KilledCommandTests
{
    private const int Yards = 12;

    private readonly Random _moments = new(20260514);
    private readonly Guid _owner = Guid.CreateVersion7();

    private static int Kills => Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 100 : 2;

    [Fact]
    public async Task A_backup_that_is_killed_leaves_the_old_one_of_that_name_or_the_new_one_whole()
    {
        (string data, string file) = await BackedUpAsync();
        await KillsAsync(async () =>
        {
            bool isKilled = await KillAsync(["backup", file, "--data", data], () => Directory.EnumerateFiles(Path.GetDirectoryName(file)!, "*.new").Any(), 60);
            string into = TestPlaces.Sqlite().Folder;
            (int exitCode, _, string error) = CommandRun.Run("restore", file, "--data", into);
            Assert.True(exitCode == 0, error);
            Assert.Equal("ok", KillTests.Check(data));
            return isKilled;
        });
    }

    [Fact]
    public async Task A_restore_that_is_killed_leaves_nothing_in_the_way_of_the_next_or_a_whole_workshop()
    {
        (_, string file) = await BackedUpAsync();
        await KillsAsync(async () =>
        {
            string into = Path.Combine(TestPlaces.Sqlite().Folder, "into"), made = Path.Combine(into, SqliteEngine.FileName);
            bool isKilled = await KillAsync(["restore", file, "--data", into], () => File.Exists(made + ".new"), 1_000);
            (int exitCode, _, string error) = File.Exists(made) ? (0, "", "") : CommandRun.Run("restore", file, "--data", into);
            Assert.True(exitCode == 0, error);
            Assert.Equal("ok", KillTests.Check(into));
            Assert.Equal(Yards, await CountAsync(into, RecordKind.Yard));
            Assert.Equal(1, await PhotosAsync(into));
            return isKilled;
        });
    }

    [Fact]
    public async Task Forgetting_that_is_killed_has_forgotten_all_or_nothing_and_is_done_whole_when_it_is_asked_for_again()
    {
        string whole = await WorkshopAsync();
        await KillsAsync(async () =>
        {
            string data = CopyOf(whole);
            bool isKilled = await KillAsync(["forget", _owner.ToString(), "--yes", "--data", data], () => IsWrittenTo(data), 400);
            Assert.Equal("ok", KillTests.Check(data));
            int left = await NamedAsync(data);
            Assert.True(left == 0 || left == Yards + 1, $"{left} of {Yards + 1} records still name the owner");
            Assert.Equal(left == 0 ? 0 : 1, await PhotosAsync(data));
            Assert.Equal(0, CommandRun.Run("forget", _owner.ToString(), "--yes", "--data", data).ExitCode);
            Assert.Equal((0, 0), (await NamedAsync(data), await PhotosAsync(data)));
            Assert.All(Directory.EnumerateFiles(data), path => Assert.DoesNotContain("Quillfeather", Encoding.Latin1.GetString(File.ReadAllBytes(path)), StringComparison.Ordinal));
            return isKilled;
        });
    }

    [Fact]
    public async Task A_start_that_brings_an_older_database_up_to_date_is_killed_and_the_next_one_works()
    {
        string whole = await WorkshopAsync();
        await using (WorkshopDatabase database = Open(whole))
        {
            await database.GetService<IMigrator>().MigrateAsync("First");
        }

        SqliteConnection.ClearAllPools();
        await KillsAsync(async () =>
        {
            string data = CopyOf(whole);
            bool isKilled = await KillAsync(["serve", "--urls", "http://127.0.0.1:0", "--data", data], () => IsWrittenTo(data), 300);
            Assert.Equal("ok", KillTests.Check(data));
            using (await ServerProcess.StartAsync(data))
            {
                // Up to date now.
            }

            Assert.Equal(Yards, await CountAsync(data, RecordKind.Yard));
            await using WorkshopDatabase database = Open(data);
            Assert.Empty(await database.Database.GetPendingMigrationsAsync());
            return isKilled;
        });
    }

    /// <summary>What a start leaves that was killed between taking the library's lock and letting go of it: a row that nobody else would ever remove.</summary>
    [Fact]
    public async Task A_lock_that_a_killed_start_left_in_the_database_keeps_nobody_out()
    {
        string data = await WorkshopAsync();
        await using (WorkshopDatabase database = Open(data))
        {
            await database.Database.ExecuteSqlRawAsync("INSERT INTO \"__EFMigrationsLock\" VALUES (1, '2026-11-29 14:28:32')");
        }

        using (await ServerProcess.StartAsync(data))
        {
            // Nothing was to be brought up to date.
        }

        await using (WorkshopDatabase database = Open(data))
        {
            await database.Database.ExecuteSqlRawAsync("DELETE FROM \"__EFMigrationsLock\"");
            await database.GetService<IMigrator>().MigrateAsync("First");
            await database.Database.ExecuteSqlRawAsync("INSERT INTO \"__EFMigrationsLock\" VALUES (1, '2026-11-29 14:28:32')");
        }

        SqliteConnection.ClearAllPools();
        using ServerProcess server = await ServerProcess.StartAsync(data);
        Assert.Equal(Yards, await CountAsync(data, RecordKind.Yard));
    }

    /// <summary>Kills often enough; on a busy machine until at least one was in time, since one that ended by itself shows nothing.</summary>
    private static async Task KillsAsync(Func<Task<bool>> isKilled)
    {
        int killed = 0;
        for (int kill = 0; kill < Kills || (killed == 0 && kill < 20); kill++)
        {
            killed += await isKilled() ? 1 : 0;
        }

        Assert.True(killed > 0, "every one ended before it was killed");
    }

    private static string CopyOf(string folder)
    {
        string copy = TestPlaces.Sqlite().Folder;
        File.Copy(Path.Combine(folder, SqliteEngine.FileName), Path.Combine(copy, SqliteEngine.FileName));
        return copy;
    }

    private static bool IsWrittenTo(string folder) => new FileInfo(Path.Combine(folder, SqliteEngine.FileName + "-wal")) is { Exists: true, Length: > 0 };

    private async Task<(string Data, string File)> BackedUpAsync()
    {
        string data = await WorkshopAsync(), file = Path.Combine(TestPlaces.Sqlite().Folder, "one.zip");
        Assert.Equal(0, CommandRun.Run("backup", file, "--data", data).ExitCode);
        return (data, file);
    }

    /// <summary>Kills a command a while after it has begun to write.</summary>
    private Task<bool> KillAsync(string[] command, Func<bool> hasBegun, int mostMilliseconds) => ServerProcess.StartAndKillAsync(command, async ended =>
    {
        while (!hasBegun())
        {
            await Task.Delay(1, ended);
        }

        await Task.Delay(_moments.Next(0, mostMilliseconds), ended);
    });

    /// <summary>A folder with a workshop: one owner, many yards that name them, a photo.</summary>
    private async Task<string> WorkshopAsync()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Guid photo = Guid.CreateVersion7();
        await principal.KeepAsync(Made.Owner(_owner, "Odo Quillfeather"), Made.Change(RecordKind.Photo, photo, new() { ["of"] = _owner.ToString() }));
        for (int i = 0; i < Yards; i++)
        {
            Change yard = Made.Yard(Guid.CreateVersion7(), _owner);
            await principal.KeepAsync(yard, Made.Change(RecordKind.Yard, yard.Record, new() { ["note"] = $"Quillfeather's lawn {i}" }));
        }

        Assert.Equal(HttpStatusCode.NoContent, (await principal.PutPhotoAsync(photo, Made.Picture(width: 2000, height: 1500, noise: 7))).StatusCode);
        return place.Folder;
    }

    private static WorkshopDatabase Open(string folder)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        new SqliteEngine(Path.Combine(folder, SqliteEngine.FileName)).Configure(options);
        return new(options.Options);
    }

    private static async Task<int> CountAsync(string folder, RecordKind kind)
    {
        await using WorkshopDatabase database = Open(folder);
        return await database.Records.CountAsync(record => record.Kind == kind);
    }

    private static async Task<int> PhotosAsync(string folder)
    {
        await using WorkshopDatabase database = Open(folder);
        return await database.Photos.CountAsync();
    }

    private static async Task<int> NamedAsync(string folder)
    {
        await using WorkshopDatabase database = Open(folder);
        return await database.Records.CountAsync(record => record.Json.Contains("Quillfeather"));
    }
}
