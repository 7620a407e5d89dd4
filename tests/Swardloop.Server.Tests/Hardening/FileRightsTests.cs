using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Who on the machine may read what a workshop keeps.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class FileRightsTests
{
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    [Fact]
    public async Task Nobody_else_on_the_machine_may_read_the_data_folder_backups_and_exports()
    {
        string folder = Path.Combine(TestPlaces.Sqlite().Folder, "data"), kept = Path.Combine(TestPlaces.Sqlite().Folder, "kept");
        Directory.CreateDirectory(kept);
        await using (Served served = await Served.StartAsync(new(folder, null, false)))
        {
            using HttpClient principal = await served.AsAsync(Role.Principal);
            await principal.KeepAsync(Made.Yard(Guid.CreateVersion7()));
            Assert.Equal(0, CommandRun.Run("backup", Path.Combine(kept, "one.zip"), "--data", folder).ExitCode);
            Assert.Equal(0, CommandRun.Run("export", "--everything", "--into", Path.Combine(kept, "all"), "--data", folder).ExitCode);
            Assert.Equal(0, CommandRun.Run("restore", Path.Combine(kept, "one.zip"), "--data", Path.Combine(kept, "again")).ExitCode);
            AssertClosed(folder);
            Assert.Contains(Directory.EnumerateFiles(folder), file => file.EndsWith("-wal", StringComparison.Ordinal));
            Assert.All(Directory.EnumerateFiles(folder), AssertClosed);
        }

        AssertClosed(Path.Combine(kept, "one.zip"));
        AssertClosed(Path.Combine(kept, "all"));
        AssertClosed(Path.Combine(kept, "again"));
        Assert.All(Directory.EnumerateFiles(Path.Combine(kept, "again")), AssertClosed);
    }

    [Fact]
    public async Task A_data_folder_of_an_earlier_program_is_closed_at_the_next_start()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await (await Served.StartAsync(place)).DisposeAsync();
        string file = Path.Combine(place.Folder, SqliteEngine.FileName);
        File.SetUnixFileMode(place.Folder, (UnixFileMode)0b111_101_101);
        File.SetUnixFileMode(file, (UnixFileMode)0b110_100_100);
        await (await Served.StartAsync(place)).DisposeAsync();
        AssertClosed(place.Folder);
        AssertClosed(file);
    }

    [Fact]
    public async Task A_folder_that_holds_other_things_keeps_its_rights_and_the_files_are_closed()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await File.WriteAllTextAsync(Path.Combine(place.Folder, "anything.txt"), "of somebody else", TestContext.Current.CancellationToken);
        UnixFileMode before = (UnixFileMode)0b111_101_101;
        File.SetUnixFileMode(place.Folder, before);
        await (await Served.StartAsync(place)).DisposeAsync();
        Assert.Equal(before, File.GetUnixFileMode(place.Folder));
        AssertClosed(Path.Combine(place.Folder, SqliteEngine.FileName));
    }

    private static void AssertClosed(string path) =>
        Assert.True((File.GetUnixFileMode(path) & Others) == 0, $"{path} is {File.GetUnixFileMode(path)}");
}
