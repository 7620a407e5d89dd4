using Swardloop.Server.Tests.Processes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>What a first start leaves behind when it is cut off.</summary>
public sealed class FirstStartTests
{
    [Fact]
    public async Task A_first_start_that_left_a_file_of_zero_bytes_is_begun_anew()
    {
        string folder = TestPlaces.Sqlite().Folder;
        await File.WriteAllBytesAsync(Path.Combine(folder, SqliteEngine.FileName), [], TestContext.Current.CancellationToken);
        using ServerProcess server = await ServerProcess.StartAsync(folder, isNew: true);
        Assert.NotNull(server.Code);
    }

    [Fact]
    public async Task An_empty_file_beside_a_log_of_changes_is_no_first_start_and_is_refused()
    {
        string folder = TestPlaces.Sqlite().Folder, file = Path.Combine(folder, SqliteEngine.FileName);
        await File.WriteAllBytesAsync(file, [], TestContext.Current.CancellationToken);
        await File.WriteAllBytesAsync(file + "-wal", new byte[4096], TestContext.Current.CancellationToken);
        (int exitCode, string error) = await ServerProcess.RunAsync(folder);
        Assert.Equal(2, exitCode);
        Assert.Contains("restore a backup", Assert.Single(error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
        Assert.Equal(4096, new FileInfo(file + "-wal").Length);
    }

    /// <summary>6 times in every run, 200 in the long one.</summary>
    [Fact]
    public async Task A_first_start_killed_at_any_moment_is_followed_by_one_that_works()
    {
        int rounds = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 200 : 6;
        Random moments = new(20260514);
        for (int round = 0; round < rounds; round++)
        {
            string folder = TestPlaces.Sqlite().Folder, file = Path.Combine(folder, SqliteEngine.FileName);
            bool isSeen = await ServerProcess.StartAndKillAsync(folder, async ended =>
            {
                // From the moment at which anything lies in the folder.
                while (!Directory.EnumerateFiles(folder, SqliteEngine.FileName + "*").Any())
                {
                    await Task.Delay(1, ended);
                }

                await Task.Delay(moments.Next(0, 400), ended);
            });
            Assert.True(isSeen, "the server ended by itself");
            Assert.False(File.Exists(file) && new FileInfo(file).Length == 0, "a file of zero bytes was left");
            using ServerProcess server = await ServerProcess.StartAsync(folder, isNew: true);
            Assert.NotNull(server.Code);
        }
    }
}
