using System.Globalization;
using System.Text.Json.Nodes;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Server.Tests.Changes;

/// <summary>Stories of devices that work apart, with the devices' own code, over HTTP, against the real journal: answers get lost, things come twice and in pieces, the server
/// is started anew. In the end all are equal, nothing that was acknowledged is missing, and every conflict is seen by everybody.</summary>
public abstract class DeviceStoryTests
{
    private const int Devices = 3, Steps = 60;

    private protected abstract Task<WorkshopPlace> PlaceAsync();

    [Fact]
    public async Task After_any_story_all_devices_and_the_server_hold_the_same_and_nothing_acknowledged_is_missing()
    {
        int stories = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 500 : 4;
        int seed = Environment.GetEnvironmentVariable("SWARDLOOP_SEED") is { } given ? int.Parse(given, CultureInfo.InvariantCulture) : 20261129;
        for (int story = 0; story < stories; story++)
        {
            await PlayAsync(new Random(seed + story), $"seed {seed + story}");
        }
    }

    private async Task PlayAsync(Random random, string what)
    {
        WorkshopPlace place = await PlaceAsync();
        Served served = await Served.StartAsync(place);
        try
        {
            Device[] devices = [.. Enumerable.Range(0, Devices).Select(_ => new Device())];
            HttpClient[] clients = await SignInAsync(served);
            (Guid owner, Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
            devices[0].Make(RecordKind.Owner, owner, new() { ["name"] = "Tamsin Brook" });
            devices[0].Make(RecordKind.Yard, yard, new() { ["name"] = "Sorrel Corner", ["owner"] = owner.ToString(), ["file"] = Made.YardFile.DeepClone() });
            devices[0].Make(RecordKind.Case, @case, new() { ["yard"] = yard.ToString(), ["state"] = "open" });
            await devices[0].SendAsync(clients[0], isAnswerLost: false, int.MaxValue);
            for (int step = 0; step < Steps; step++)
            {
                int who = random.Next(Devices);
                Device device = devices[who];
                switch (random.Next(9))
                {
                    case 0 or 1 when device.Replica[owner] is not null:
                        device.Make(RecordKind.Owner, owner, new() { [Pick(random, "phone", "note", "name")] = $"{who}.{step}" });
                        break;
                    case 2 when device.Replica[@case] is not null:
                        device.Make(RecordKind.Case, @case, new() { [Pick(random, "complaint", "note", "assignedTo")] = $"{who}.{step}" });
                        break;
                    case 3 when device.Replica[@case] is not null:
                        device.Make(RecordKind.Observation, Guid.CreateVersion7(), new() { ["yard"] = yard.ToString(), ["case"] = @case.ToString(), ["reading"] = new JsonObject { ["test"] = "loop-resistance", ["ohms"] = step + 1 } });
                        break;
                    case 4:
                        device.Make(RecordKind.Instrument, Guid.CreateVersion7(), new() { ["name"] = $"Meter {who}.{step}" });
                        break;
                    case 5:
                        await device.SendAsync(clients[who], isAnswerLost: random.Next(3) == 0, random.Next(1, 6));
                        break;
                    case 6:
                        await device.FetchAsync(clients[who], random.Next(1, 8));
                        break;
                    case 7 when random.Next(6) == 0:
                        await served.DisposeAsync();
                        served = await Served.StartAsync(place);
                        clients = await SignInAsync(served);
                        break;
                    default:
                        await device.SendAgainAsync(clients[who], random);
                        break;
                }
            }

            for (int i = 0; i < Devices; i++)
            {
                while (devices[i].Replica.Waiting.Count > 0)
                {
                    await devices[i].SendAsync(clients[i], isAnswerLost: false, 50);
                }
            }

            for (int i = 0; i < Devices; i++)
            {
                while (!await devices[i].FetchAsync(clients[i], 100))
                {
                }
            }

            IReadOnlyList<RecordState> all = (await clients[0].PageAsync()).Records;
            Dictionary<Guid, string> server = all.ToDictionary(record => record.Id, Text);
            foreach (Device device in devices)
            {
                Assert.Equal(server.Count, device.Replica.Ids.Count);
                Assert.All(server, record => Assert.True(Text(device.Replica[record.Key]!) == record.Value, $"{what}: {record.Value} on the server, {Text(device.Replica[record.Key]!)} on a device"));
                foreach (IGrouping<Guid, Change> made in device.Acknowledged.GroupBy(change => change.Record))
                {
                    IReadOnlyList<HistoryEntry> history = (await clients[0].GetFromJsonAsync($"/api/records/{made.Key}/history", WorkshopJson.Default.IReadOnlyListHistoryEntry))!;
                    Assert.All(made, change => Assert.True(history.Count(entry => entry.Change.Id == change.Id) == 1, $"{what}: {change.Id} is {history.Count(entry => entry.Change.Id == change.Id)} times in the history"));
                }
            }

            // Each value that nobody has seen and replaced is shown: as many as the changes say, worked out here from the journal alone.
            IReadOnlyList<HistoryEntry> owners = (await clients[0].GetFromJsonAsync($"/api/records/{owner}/history", WorkshopJson.Default.IReadOnlyListHistoryEntry))!;
            foreach (string field in (string[])["name", "phone", "note"])
            {
                Change[] set = [.. owners.Select(entry => entry.Change).Where(change => change.Set.ContainsKey(field))];
                Guid[] left = [.. set.Where(change => !set.Any(later => later.Seen.TryGetValue(field, out IReadOnlyList<Guid>? seen) && seen.Contains(change.Id))).Select(change => change.Id).Order()];
                Assert.Equal(left, all.Single(record => record.Id == owner)[field].Ids.Order());
            }
        }
        finally
        {
            await served.DisposeAsync();
        }
    }

    private static async Task<HttpClient[]> SignInAsync(Served served)
    {
        // One person on three devices: the names beside the values are then comparable.
        HttpClient client = await served.AsAsync(Role.Principal);
        return [.. Enumerable.Repeat(client, Devices)];
    }

    private static string Text(RecordState record) => JsonSerializer.Serialize(
        record with { Fields = new SortedDictionary<string, FieldState>(record.Fields.ToDictionary(field => field.Key, field => field.Value), StringComparer.Ordinal) }, WorkshopJson.Default.RecordState);

    private static T Pick<T>(Random random, params T[] from) => from[random.Next(from.Length)];

    private sealed class Device
    {
        private readonly List<Change> _sent = [];

        public Replica Replica { get; } = new([], [], 0);

        public List<Change> Acknowledged { get; } = [];

        public void Make(RecordKind kind, Guid record, JsonObject set)
        {
            using JsonDocument document = JsonDocument.Parse(set.ToJsonString());
            Change change = Replica.ChangeOf(record, kind, document.RootElement.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.Clone()), DateTimeOffset.UtcNow);
            Replica.Apply(new([], [new WaitingChange(change, "Robin", "robin@example.org", null)], [], null));
        }

        public async Task SendAsync(HttpClient client, bool isAnswerLost, int most)
        {
            Change[] some = [.. Replica.Outgoing("robin@example.org").Take(most)];
            if (some.Length == 0)
            {
                return;
            }

            _sent.AddRange(some);
            IReadOnlyList<ChangeResult> results = await client.SendAsync(some);
            Assert.DoesNotContain(results, result => result.Status == ChangeStatus.Refused);
            if (!isAnswerLost)
            {
                Replica.Apply(Replica.Taking(new ChangeResults(results)));
                Acknowledged.AddRange(some);
            }
        }

        /// <summary>What was sent before comes once more, late and in another order, as from a network that kept it.</summary>
        public async Task SendAgainAsync(HttpClient client, Random random)
        {
            Change[] some = [.. _sent.OrderBy(_ => random.Next()).Take(3)];
            if (some.Length > 0)
            {
                Assert.DoesNotContain(await client.SendAsync(some), result => result.Status == ChangeStatus.Refused);
            }
        }

        public async Task<bool> FetchAsync(HttpClient client, int limit)
        {
            RecordPage page = await client.PageAsync(Replica.Next, limit);
            Replica.Apply(Replica.Taking(page));
            return page.Complete;
        }
    }
}

/// <summary>In a SQLite file.</summary>
public sealed class SqliteDeviceStoryTests : DeviceStoryTests
{
    private protected override Task<WorkshopPlace> PlaceAsync() => Task.FromResult(TestPlaces.Sqlite());
}

/// <summary>In PostgreSQL.</summary>
public sealed class PostgresDeviceStoryTests(PostgresServer postgres) : DeviceStoryTests, IClassFixture<PostgresServer>
{
    private protected override Task<WorkshopPlace> PlaceAsync() => postgres.NewPlaceAsync();
}
