using System.IO.Compression;
using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Processes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Backups that are damaged, made to harm, or of an older program.</summary>
public sealed class RestoreTests
{
    private readonly WorkshopPlace _place = TestPlaces.Sqlite();
    private readonly Guid _photo = Guid.CreateVersion7();

    private string Into => Path.Combine(_place.Folder, "again");

    [Fact]
    public async Task Two_flipped_bytes_in_any_entry_are_found_and_nothing_is_left_and_the_good_backup_restores_after_all()
    {
        string file = await BackupAsync();
        string[] names = Names(file);
        Assert.Equal(5, names.Length);
        foreach (string name in names)
        {
            string bad = Changed(file, name, bytes =>
            {
                // Letters and numbers stay such: JSON that still reads, a photo that still opens.
                int at = name.EndsWith(".jpg", StringComparison.Ordinal) ? bytes.Length / 2 : Array.FindLastIndex(bytes, one => char.IsAsciiDigit((char)one));
                bytes[at] ^= 1;
                bytes[at - 1] ^= name.EndsWith(".jpg", StringComparison.Ordinal) ? (byte)1 : (byte)0;
                return bytes;
            });
            AssertRefused(bad);
        }

        Assert.Equal((0, ""), Restore(file));
    }

    [Fact]
    public async Task A_line_that_is_there_twice_is_refused_in_one_line()
    {
        string file = await BackupAsync();
        AssertRefused(Changed(file, "journal.jsonl", bytes => [.. bytes, .. Lines(bytes)[^1]], keepsHashes: false));
        AssertRefused(Changed(file, "accounts.jsonl", bytes => [.. bytes, .. bytes], keepsHashes: false));
    }

    [Fact]
    public async Task A_small_file_that_unpacks_to_gigabytes_is_refused_in_little_memory()
    {
        string file = await BackupAsync(), bomb = file + ".bomb.zip";
        File.Copy(file, bomb);
        using (ZipArchive zip = ZipFile.Open(bomb, ZipArchiveMode.Update))
        {
            zip.GetEntry("journal.jsonl")!.Delete();
            using Stream stream = zip.CreateEntry("journal.jsonl", CompressionLevel.Fastest).Open();
            byte[] blanks = new byte[1 << 20];
            Array.Fill(blanks, (byte)' ');
            for (int i = 0; i < 200; i++)
            {
                stream.Write(blanks);
            }
        }

        // In a process of its own, whose heap may not grow beyond 160 MiB: other tests' memory is not counted.
        (int exitCode, string error) = await ServerProcess.RunAsync(["restore", bomb, "--data", Into], "export DOTNET_GCHeapHardLimit=0xA000000;");
        Assert.True(exitCode == 2, $"{exitCode} {error}");
        Assert.Contains("journal.jsonl", Assert.Single(error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
        Assert.False(Directory.Exists(Into), "something was left");
    }

    [Fact]
    public async Task A_backup_of_the_first_format_restores_and_its_flipped_bytes_are_found_too()
    {
        string file = await BackupAsync();
        string old = Changed(file, "manifest.json", bytes =>
        {
            JsonObject manifest = JsonNode.Parse(bytes)!.AsObject();
            manifest["format"] = "swardloop-backup/1";
            manifest.Remove("hashes");
            return Encoding.UTF8.GetBytes(manifest.ToJsonString());
        });
        byte[] bytes = await File.ReadAllBytesAsync(old, TestContext.Current.CancellationToken);
        using (ZipArchive zip = new(new MemoryStream(bytes)))
        {
            // Photos lie in the file as they are: somewhere in the large one's bytes.
            byte[] photo = new byte[zip.GetEntry($"photos/{_photo}.jpg")!.Length];
            zip.GetEntry($"photos/{_photo}.jpg")!.Open().ReadExactly(photo);
            int at = bytes.AsSpan().IndexOf(photo);
            bytes[at + (photo.Length / 2)] ^= 1;
        }

        string bad = old + ".bad.zip";
        await File.WriteAllBytesAsync(bad, bytes, TestContext.Current.CancellationToken);
        AssertRefused(bad);
        Assert.Equal((0, ""), Restore(old));
    }

    private async Task<string> BackupAsync()
    {
        string file = Path.Combine(_place.Folder, "one.backup.zip");
        await using Served served = await Served.StartAsync(new(Path.Combine(_place.Folder, "first"), null, false));
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid yard = Guid.CreateVersion7();
        await desk.KeepAsync(Made.Yard(yard), Made.Case(Guid.CreateVersion7(), yard), Made.Change(RecordKind.Photo, _photo, new() { ["of"] = yard.ToString() }));
        Assert.Equal(HttpStatusCode.NoContent, (await desk.PutPhotoAsync(_photo, Made.Picture(width: 640, height: 480))).StatusCode);
        Assert.Equal(0, CommandRun.Run("backup", file, "--data", Path.Combine(_place.Folder, "first")).ExitCode);
        return file;
    }

    private (int, string) Restore(string file)
    {
        (int exitCode, _, string error) = CommandRun.Run("restore", file, "--data", Into);
        return (exitCode, error);
    }

    private void AssertRefused(string file)
    {
        (int exitCode, string error) = Restore(file);
        Assert.True(exitCode == 2, $"{file}: {exitCode} {error}");
        Assert.Single(error.TrimEnd('\n').Split('\n'));
        Assert.False(Directory.Exists(Into), "something was left");
    }

    private static string[] Names(string file)
    {
        using ZipArchive zip = ZipFile.OpenRead(file);
        return [.. zip.Entries.Select(entry => entry.FullName)];
    }

    private static byte[][] Lines(byte[] bytes) =>
        [.. Encoding.UTF8.GetString(bytes).TrimEnd('\n').Split('\n').Select(line => Encoding.UTF8.GetBytes(line + "\n"))];

    /// <summary>A copy with one entry changed; its digest too, unless it is to stay.</summary>
    private static string Changed(string file, string name, Func<byte[], byte[]> change, bool keepsHashes = true)
    {
        string copy = $"{file}.{Path.GetRandomFileName()}.zip";
        Dictionary<string, byte[]> entries = [];
        using (ZipArchive zip = ZipFile.OpenRead(file))
        {
            foreach (ZipArchiveEntry entry in zip.Entries)
            {
                byte[] bytes = new byte[entry.Length];
                using Stream stream = entry.Open();
                stream.ReadExactly(bytes);
                entries[entry.FullName] = bytes;
            }
        }

        entries[name] = change(entries[name]);
        if (!keepsHashes)
        {
            JsonObject manifest = JsonNode.Parse(entries["manifest.json"])!.AsObject();
            manifest["hashes"]![name] = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(entries[name]));
            entries["manifest.json"] = Encoding.UTF8.GetBytes(manifest.ToJsonString());
        }

        using ZipArchive into = ZipFile.Open(copy, ZipArchiveMode.Create);
        foreach ((string entry, byte[] bytes) in entries)
        {
            using Stream stream = into.CreateEntry(entry, entry.EndsWith(".jpg", StringComparison.Ordinal) ? CompressionLevel.NoCompression : CompressionLevel.Optimal).Open();
            stream.Write(bytes);
        }

        return copy;
    }
}
