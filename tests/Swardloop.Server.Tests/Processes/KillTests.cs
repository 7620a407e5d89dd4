using System.Collections.Concurrent;
using Microsoft.Data.Sqlite;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage.Sqlite;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Processes;

public sealed class KillTests
{
    private const int Writers = 3;

    /// <summary>40 times in every run, 1,000 times in the long one: people write, the server is killed at some moment, and started again on the
    /// same folder. What was answered as kept is there; what was not is sent again and is there once; the file is whole.</summary>
    [Fact]
    public async Task Nothing_answered_as_kept_is_lost_when_the_server_is_killed()
    {
        int rounds = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 1000 : 40;
        string folder = TestPlaces.Sqlite().Folder;
        Random moments = new(20260514);
        using HttpClient client = new(new SocketsHttpHandler { CookieContainer = new() });
        await SignUpAsync(client, folder);

        ConcurrentDictionary<Guid, byte> kept = new();
        List<Change> unanswered = [];
        for (int round = 0; round <= rounds; round++)
        {
            using ServerProcess server = await ServerProcess.StartAsync(folder);
            await EveryKeptIsThereAsync(client, server.Address, kept.Keys);
            foreach (Change again in unanswered)
            {
                Assert.Equal(ChangeStatus.Kept, await SendAsync(client, server.Address, again));
                kept[again.Record] = 0;
            }

            unanswered.Clear();
            if (round == rounds)
            {
                break;
            }

            int after = moments.Next(1, 25);
            TaskCompletionSource enough = new(TaskCreationOptions.RunContinuationsAsynchronously);
            Task<Change?>[] writing = [.. Enumerable.Range(0, Writers).Select(_ => WriteUntilCutOffAsync(client, server.Address, kept, () =>
            {
                if (Interlocked.Decrement(ref after) == 0)
                {
                    enough.SetResult();
                }
            }))];
            await Task.WhenAny(enough.Task, Task.WhenAll(writing)); // the latter only when something is wrong: what follows says what
            Thread.SpinWait(moments.Next(0, 200_000)); // somewhere between two writes, or within one
            await server.KillAsync();
            unanswered.AddRange((await Task.WhenAll(writing)).OfType<Change>());
            Assert.Equal("ok", Check(folder));
        }

        Assert.True(kept.Count >= rounds, $"only {kept.Count} changes were kept in {rounds} rounds");
    }

    internal static async Task SignUpAsync(HttpClient client, string folder)
    {
        using ServerProcess server = await ServerProcess.StartAsync(folder, isNew: true);
        HttpResponseMessage made = await Served.SignUpAsync(client, server.Code, server.Address);
        Assert.Equal(HttpStatusCode.OK, made.StatusCode);
    }

    private static async Task<Change?> WriteUntilCutOffAsync(HttpClient client, Uri address, ConcurrentDictionary<Guid, byte> kept, Action onKept)
    {
        while (true)
        {
            Change change = Made.Owner(Guid.CreateVersion7());
            try
            {
                if (await SendAsync(client, address, change) != ChangeStatus.Kept)
                {
                    return change;
                }
            }
            catch (Exception cut) when (cut is HttpRequestException or IOException or JsonException)
            {
                return change;
            }

            kept[change.Record] = 0;
            onKept();
        }
    }

    internal static async Task<ChangeStatus> SendAsync(HttpClient client, Uri address, Change change)
    {
        HttpResponseMessage answer = await client.PostAsync(
            new Uri(address, "/api/changes"), Served.Json(new ChangeBatch([change]), WorkshopJson.Default.ChangeBatch));
        answer.EnsureSuccessStatusCode();
        return (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ChangeResults))!.Results.Single().Status;
    }

    internal static async Task EveryKeptIsThereAsync(HttpClient client, Uri address, IEnumerable<Guid> kept)
    {
        HashSet<Guid> there = [];
        long since = 0;
        while (true)
        {
            RecordPage page = (await client.GetFromJsonAsync(new Uri(address, $"/api/records?since={since}&limit=2000"), WorkshopJson.Default.RecordPage))!;
            Assert.Equal(Enumerable.Range(1, page.Records.Count).Select(number => since + number), page.Records.Select(record => record.Version));
            there.UnionWith(page.Records.Select(record => record.Id));
            since = page.Next;
            if (page.Complete)
            {
                break;
            }
        }

        Assert.Empty(kept.Except(there));
    }

    internal static string Check(string folder)
    {
        using SqliteConnection connection = new($"Data Source={Path.Combine(folder, SqliteEngine.FileName)};Pooling=False");
        connection.Open();
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        return (string)command.ExecuteScalar()!;
    }
}
