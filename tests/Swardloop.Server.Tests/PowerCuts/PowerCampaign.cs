using System.Collections.Concurrent;
using Microsoft.Data.Sqlite;
using Swardloop.Server.Photos;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Processes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.PowerCuts;

/// <summary>People write and hand in photos; the power goes; the server starts again on what the disk then held; and so on, from cut to cut.</summary>
/// <param name="random">Chooses moments and what of the unsynced is there.</param>
internal sealed class PowerCampaign(Random random) : IDisposable
{
    private static readonly byte[][] Pictures = [.. Enumerable.Range(1, 4).Select(noise => Made.Picture(width: 100 * noise, height: 300, noise: noise))];
    private static readonly PhotoFile[] Drawn = [.. Pictures.Select(picture => PhotoFile.Read(picture)!)];

    private readonly HttpClient _client = new(new SocketsHttpHandler { CookieContainer = new() });
    private readonly HashSet<Guid> _kept = [];
    private readonly Dictionary<Guid, int> _photos = [];
    private string _folder = TestPlaces.Sqlite().Folder;

    /// <summary>Changes and photos that were answered as kept before a cut, so far.</summary>
    public int Kept => _kept.Count + _photos.Count;

    /// <summary>Cuts the power that often; fails when something that was answered as kept is gone, or something is not whole.</summary>
    /// <param name="cuts">Cuts.</param>
    /// <param name="liesAboutSyncs">Whether the disk keeps nothing of what it says it keeps; then nothing that was not synced is there, and the power goes last.</param>
    public async Task RunAsync(int cuts, bool liesAboutSyncs = false)
    {
        await KillTests.SignUpAsync(_client, _folder);
        for (int cut = 0; cut < cuts; cut++)
        {
            Dictionary<string, byte[]> before = RecordedDisk.FilesOf(_folder);
            string record = Path.Combine(TestPlaces.Sqlite().Folder, "record");
            ConcurrentDictionary<Guid, long> keptAt = new();
            ConcurrentDictionary<Guid, (int Picture, long At)> photosAt = new();
            long started;
            using (ServerProcess server = await ServerProcess.StartAsync(_folder, before: Recorder.Before(_folder, record, liesAboutSyncs)))
            {
                started = new FileInfo(record).Length;
                await WholeAsync(server.Address);
                // In the last round all comes to its end: whatever chance did before, some of what was answered is put to the test.
                int after = cut == cuts - 1 ? 40 : random.Next(1, 40);
                TaskCompletionSource enough = new(TaskCreationOptions.RunContinuationsAsynchronously);
                Task[] writing = [.. Enumerable.Range(0, 3).Select(writer => WriteAsync(server.Address, writer == 2, record, keptAt, photosAt, () =>
                {
                    if (Interlocked.Decrement(ref after) == 0)
                    {
                        enough.SetResult();
                    }
                }))];
                await Task.WhenAny(enough.Task, Task.WhenAll(writing));
                await server.KillAsync();
                await Task.WhenAll(writing);
            }

            RecordedDisk disk = RecordedDisk.Read(_folder, before, record);
            // Mostly while people write, sometimes during the start or with nothing left to come.
            int calls = liesAboutSyncs || cut == cuts - 1 ? disk.Calls : random.Next(4) switch
            {
                0 => random.Next(disk.Calls + 1),
                1 => disk.Calls,
                _ => random.Next(disk.CallsAt(started), disk.Calls + 1),
            };
            _kept.UnionWith(keptAt.Where(one => disk.CallsAt(one.Value) <= calls).Select(one => one.Key));
            foreach ((Guid photo, (int picture, long at)) in photosAt.Where(one => disk.CallsAt(one.Value.At) <= calls))
            {
                _photos[photo] = picture;
            }

            string next = TestPlaces.Sqlite().Folder;
            disk.Cut(calls, liesAboutSyncs ? null : random, next);
            Directory.Delete(_folder, recursive: true);
            File.Delete(record);
            _folder = next;
        }

        using ServerProcess last = await ServerProcess.StartAsync(_folder);
        await WholeAsync(last.Address);
    }

    public void Dispose() => _client.Dispose();

    private async Task WriteAsync(
        Uri address, bool isPhotographer, string record, ConcurrentDictionary<Guid, long> keptAt, ConcurrentDictionary<Guid, (int Picture, long At)> photosAt, Action onKept)
    {
        for (int number = 0; ; number++)
        {
            Change owner = Made.Owner(Guid.CreateVersion7());
            Change photo = Made.Change(RecordKind.Photo, Guid.CreateVersion7(), new() { ["of"] = owner.Record.ToString() });
            try
            {
                foreach (Change change in isPhotographer ? (Change[])[owner, photo] : [owner])
                {
                    if (await KillTests.SendAsync(_client, address, change) != ChangeStatus.Kept)
                    {
                        return;
                    }

                    keptAt[change.Record] = new FileInfo(record).Length;
                }

                if (isPhotographer)
                {
                    HttpResponseMessage put = await _client.PutPhotoAsync(photo.Record, Pictures[number % Pictures.Length], address);
                    put.EnsureSuccessStatusCode();
                    photosAt[photo.Record] = (number % Pictures.Length, new FileInfo(record).Length);
                }

                onKept();
            }
            catch (Exception cut) when (cut is HttpRequestException or IOException or JsonException)
            {
                return;
            }
        }
    }

    private async Task WholeAsync(Uri server)
    {
        await KillTests.EveryKeptIsThereAsync(_client, server, _kept);
        Assert.Equal("ok", KillTests.Check(_folder));
        using SqliteConnection connection = new($"Data Source={Path.Combine(_folder, SqliteEngine.FileName)};Mode=ReadOnly;Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "SELECT Photo, Bytes, Small FROM Photos";
        HashSet<Guid> there = [];
        using SqliteDataReader photos = command.ExecuteReader();
        while (photos.Read())
        {
            Guid photo = photos.GetGuid(0);
            byte[] large = photos.GetFieldValue<byte[]>(1), small = photos.GetFieldValue<byte[]>(2);
            there.Add(photo);
            int drawn = _photos.TryGetValue(photo, out int known) ? known : Array.FindIndex(Drawn, one => one.Bytes.AsSpan().SequenceEqual(large));
            Assert.True(drawn >= 0 && Drawn[drawn].Bytes.AsSpan().SequenceEqual(large) && Drawn[drawn].Small.AsSpan().SequenceEqual(small), $"photo {photo} is not whole");
        }

        Assert.Empty(_photos.Keys.Except(there));
    }
}
