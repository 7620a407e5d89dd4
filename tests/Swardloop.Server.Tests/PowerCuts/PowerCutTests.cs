using System.Globalization;
using Microsoft.Data.Sqlite;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Processes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.PowerCuts;

/// <summary>The power goes, and the disk holds only what was synced, and of the rest what chance left there.</summary>
public sealed class PowerCutTests
{
    private static bool IsLong => Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1";

    /// <summary>5 cuts in every run, 200 in the long one.</summary>
    [Fact]
    public async Task Nothing_answered_as_kept_is_lost_when_the_power_goes_and_database_and_photos_are_whole()
    {
        int cuts = IsLong ? 200 : 5;
        int seed = Environment.GetEnvironmentVariable("SWARDLOOP_SEED") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : 20261129;
        using PowerCampaign campaign = new(new Random(seed));
        await campaign.RunAsync(cuts);
        Assert.True(campaign.Kept >= cuts, $"only {campaign.Kept} changes and photos were kept in {cuts} rounds");
        TestContext.Current.TestOutputHelper?.WriteLine($"SWARDLOOP_SEED={seed}; {cuts} cuts, {campaign.Kept} changes and photos answered as kept before one, none lost");
    }

    [Fact]
    public async Task A_disk_that_keeps_nothing_of_what_it_was_told_to_keep_is_noticed()
    {
        using PowerCampaign campaign = new(new Random(1));
        Exception? noticed = await Record.ExceptionAsync(() => campaign.RunAsync(1, liesAboutSyncs: true));
        Assert.True(noticed is Xunit.Sdk.XunitException || (noticed is InvalidOperationException && noticed.Message.StartsWith(ServerProcess.DidNotStart, StringComparison.Ordinal)), $"not noticed: {noticed}");
    }

    [Fact]
    public async Task Only_what_was_synced_by_file_and_by_name_is_there_after_a_cut()
    {
        string folder = TestPlaces.Sqlite().Folder, record = Path.Combine(TestPlaces.Sqlite().Folder, "record");
        await File.WriteAllTextAsync(Path.Combine(folder, "old"), "old");
        Dictionary<string, byte[]> before = RecordedDisk.FilesOf(folder);
        await Recorder.ShellAsync(folder, record, """
            printf one >unsynced; printf two >nameless; sync nameless; printf three >synced; sync synced; printf new >old; sync .; printf more >>synced; mv synced moved; mkdir below; printf four >below/deep; sync below/deep below;
            """);
        RecordedDisk disk = RecordedDisk.Read(folder, before, record);
        string after = TestPlaces.Sqlite().Folder;
        disk.Cut(disk.Calls, null, after);
        // "sync ." came after the names of three: the content of one of them had not been synced.
        Assert.Equal(["nameless", "old", "synced", "unsynced"], Directory.EnumerateFileSystemEntries(after).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(("two", "old", "three", ""), (Read("nameless"), Read("old"), Read("synced"), Read("unsynced")));

        // Before that last "sync ." nothing had its name.
        string earlier = TestPlaces.Sqlite().Folder;
        disk.Cut(disk.Calls / 3, null, earlier);
        Assert.Equal("old", Path.GetFileName(Assert.Single(Directory.EnumerateFileSystemEntries(earlier))));

        // What was not synced may be there all the same, whole or torn.
        HashSet<string> seen = [];
        for (int i = 0; i < 60; i++)
        {
            string maybe = TestPlaces.Sqlite().Folder;
            disk.Cut(disk.Calls, new Random(i), maybe);
            seen.Add(string.Join(' ', Directory.EnumerateFiles(maybe).Select(path => $"{Path.GetFileName(path)}={File.ReadAllText(path)}").Order(StringComparer.Ordinal)));
            Assert.Contains(Directory.EnumerateFiles(maybe), path => File.ReadAllText(path).StartsWith("three", StringComparison.Ordinal));
        }

        Assert.Contains(seen, one => one.Contains("unsynced=one", StringComparison.Ordinal));
        Assert.Contains(seen, one => one.Contains("moved=threemore", StringComparison.Ordinal));

        string Read(string name) => File.ReadAllText(Path.Combine(after, name));
    }

    /// <summary>The same writer twice, in a program that is not ours: what SQLite said it had kept is there with synchronous=FULL and is not with OFF.</summary>
    [Theory]
    [InlineData("FULL", 30)]
    [InlineData("OFF", 0)]
    public async Task SQLite_keeps_what_it_said_only_when_it_waits_for_the_disk(string synchronous, int there)
    {
        string folder = TestPlaces.Sqlite().Folder, record = Path.Combine(TestPlaces.Sqlite().Folder, "record"), after = TestPlaces.Sqlite().Folder;
        await Recorder.ShellAsync(folder, record, $$"""
            sync .
            exec python3 -c "
            import os, sqlite3
            c = sqlite3.connect('w.db', isolation_level=None)
            c.execute('PRAGMA journal_mode=WAL'); c.execute('PRAGMA synchronous={{synchronous}}')
            c.execute('CREATE TABLE t (n)')
            for n in range(30): c.execute('INSERT INTO t VALUES (?)', (n,))
            os._exit(0)"
            """);
        RecordedDisk disk = RecordedDisk.Read(folder, [], record);
        disk.Cut(disk.Calls, null, after);
        Assert.Equal(there, Rows(Path.Combine(after, "w.db")));
    }

    /// <summary>A folder that is made with the workshop, a backup and a restore: what the command said it had done is there when the power goes right after.</summary>
    [Fact]
    public async Task What_backup_and_restore_said_they_had_done_is_there_when_the_power_goes_right_after()
    {
        using HttpClient client = new(new SocketsHttpHandler { CookieContainer = new() });
        string top = TestPlaces.Sqlite().Folder, record = Path.Combine(TestPlaces.Sqlite().Folder, "record"), data = Path.Combine(top, "made", "data");
        List<Guid> kept = [];
        using (ServerProcess server = await ServerProcess.StartAsync(data, isNew: true, Recorder.Before(top, record)))
        {
            Assert.Equal(HttpStatusCode.OK, (await Served.SignUpAsync(client, server.Code, server.Address)).StatusCode);
            Change change = Made.Owner(Guid.CreateVersion7());
            Assert.Equal(ChangeStatus.Kept, await KillTests.SendAsync(client, server.Address, change));
            kept.Add(change.Record);
            await server.KillAsync();
        }

        top = Cut([]);
        data = Path.Combine(top, "made", "data");
        string backup = Path.Combine(top, "one.backup.zip"), again = Path.Combine(top, "again", "here");
        await RunAsync("backup", backup, "--data", data);
        await RunAsync("restore", backup, "--data", again);
        foreach (string workshop in (string[])[data, again])
        {
            using ServerProcess server = await ServerProcess.StartAsync(workshop);
            Assert.Equal(HttpStatusCode.OK, (await Served.SignInAsync(client, "wren@example.org", Served.Password, server.Address)).StatusCode);
            await KillTests.EveryKeptIsThereAsync(client, server.Address, kept);
        }

        Assert.Equal(0, CommandRun.Run("restore", backup, "--data", TestPlaces.Sqlite().Folder).ExitCode);

        async Task RunAsync(params string[] command)
        {
            Dictionary<string, byte[]> before = RecordedDisk.FilesOf(top);
            string from = top;
            Assert.Equal((0, ""), await ServerProcess.RunAsync(command, Recorder.Before(top, record)));
            top = Cut(before);
            (data, backup, again) = (data.Replace(from, top, StringComparison.Ordinal), backup.Replace(from, top, StringComparison.Ordinal), again.Replace(from, top, StringComparison.Ordinal));
        }

        string Cut(Dictionary<string, byte[]> before)
        {
            RecordedDisk disk = RecordedDisk.Read(top, before, record);
            string next = TestPlaces.Sqlite().Folder;
            disk.Cut(disk.Calls, null, next);
            File.Delete(record);
            return next;
        }
    }

    private static long Rows(string file)
    {
        using SqliteConnection connection = new($"Data Source={file};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        try
        {
            command.CommandText = "SELECT count(*) FROM t";
            return (long)command.ExecuteScalar()!;
        }
        catch (SqliteException)
        {
            return 0; // not even the table
        }
    }
}
