using System.Globalization;
using System.Text.Json;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Workshop.Tests.Sync;

/// <summary>The model: devices with a disk, tabs that share it, messages under way, and a server that numbers changes.</summary>
internal sealed class SyncWorld
{
    private const string Refused = "refuse me";
    private static readonly string[] Fields = ["name", "address"];

    private readonly Server _server = new();
    private readonly Device[] _devices;
    private readonly List<Message> _underWay = [];
    private readonly List<Guid> _yards = [];
    private readonly Dictionary<Guid, (Device Device, Change Change)> _acknowledged = [];
    private readonly Dictionary<Guid, (Device Device, string Bytes)> _taken = [];
    private DateTimeOffset _now = new(2026, 5, 14, 8, 0, 0, TimeSpan.Zero);

    public SyncWorld() => _devices = [.. Enumerable.Range(0, 3).Select(i => new Device(i))];

    /// <summary>One thing that happens. Whatever the numbers, something sensible is done, so that a shrunk story still means what it says.</summary>
    public void Do(int kind, int a, int b, int c)
    {
        _now += TimeSpan.FromMilliseconds(c % 3);
        Device device = _devices[a % _devices.Length];
        switch (kind)
        {
            case 0:
                NewYardWithCase(device, b);
                break;
            case 1 or 2 or 3:
                Edit(device, b, c);
                break;
            case 4 or 5:
                _underWay.Add(new(device, device.Tabs[device.Leader].Outgoing(device.Email), null, null, device.Life));
                break;
            case 6:
                _underWay.Add(new(device, null, device.Tabs[device.Leader].Next, null, device.Life));
                break;
            case 7 or 8 or 9:
                Deliver(b, keep: c % 5 == 0, crash: c % 7 == 0);
                break;
            case 10 when _underWay.Count > 0:
                _underWay.RemoveAt(b % _underWay.Count);
                break;
            case 11:
                device.Crash();
                break;
            case 12:
                device.Hear(b % 2);
                break;
            case 13:
                TakePhoto(device, b, c);
                break;
            case 14:
                Replica leader = device.Tabs[device.Leader];
                if (leader.OutgoingPhoto(device.Email) is { } photo)
                {
                    _underWay.Add(new(device, null, null, null, device.Life) { Photo = photo.Id, Bytes = device.Photos[photo.Id] });
                }

                break;
        }
    }

    /// <summary>The network works again, and everybody talks until nobody has anything to say.</summary>
    public void Heal()
    {
        while (_underWay.Count > 0)
        {
            Deliver(_underWay.Count - 1, keep: false, crash: false); // what was late arrives last first
        }

        for (int round = 0; round < 20; round++)
        {
            foreach (Device device in _devices)
            {
                while (device.Tabs[device.Leader].Outgoing(device.Email) is { Count: > 0 } batch)
                {
                    device.Write(device.Tabs[device.Leader].Taking(_server.Post(batch, device.Email)));
                }

                RecordPage page;
                do
                {
                    page = _server.Page(device.Tabs[device.Leader].Next, 3);
                    device.Write(device.Tabs[device.Leader].Taking(page));
                }
                while (!page.Complete);

                while (device.Tabs[device.Leader].OutgoingPhoto(device.Email) is { } photo)
                {
                    device.Write(Taken(device.Tabs[device.Leader], photo.Id, _server.Put(photo.Id, device.Photos[photo.Id])));
                }

                device.Hear(0);
                device.Hear(1);
            }
        }
    }

    public void Check()
    {
        foreach (Device device in _devices)
        {
            Replica reloaded = device.Load();
            foreach (Replica view in (Replica[])[.. device.Tabs, reloaded])
            {
                Assert.Equal(_server.Records.Keys.Order(), view.Ids.Order());
                foreach ((Guid id, RecordState record) in _server.Records)
                {
                    Assert.Equal(Json(record), Json(view[id]!));
                }

                Assert.All(view.Waiting, waiting => Assert.NotNull(waiting.Refusal));
                Assert.All(view.WaitingPhotos, photo => Assert.True(photo.Refusal is not null || view.Waiting.Any(waiting => waiting.Change.Record == photo.Id)));
            }
        }

        CheckPhotos();

        foreach ((Guid id, (Device device, Change change)) in _acknowledged)
        {
            bool isRefused = device.Load().Waiting.Any(waiting => waiting.Change.Id == id);
            Assert.True(_server.Journal.ContainsKey(id) != isRefused, $"{id} is neither at the server nor shown as refused, or both");
            Assert.Equal(isRefused, ((string[])["name", "caption"]).Any(field => change.Set.TryGetValue(field, out JsonElement value) && value.ValueEquals(Refused)));
        }

        Assert.Equal(_server.Journal.Count, _acknowledged.Count(each => _server.Journal.ContainsKey(each.Key)));
        foreach ((Guid id, RecordState record) in _server.Records)
        {
            Change[] history = [.. _server.Journal.Values.Where(change => change.Record == id)];
            foreach (string field in history.SelectMany(change => change.Set.Keys).Distinct())
            {
                HashSet<Guid> replaced = [.. history.SelectMany(change => change.SeenIn(field))];
                IEnumerable<Guid> standing = history.Where(change => change.Set.ContainsKey(field) && !replaced.Contains(change.Id))
                    .Select(change => change.Id).OrderDescending();
                Assert.Equal(standing, record[field].Ids);
            }
        }
    }

    /// <summary>Every photo that was shown as saved is at the server once with its very bytes, or on its device with the reason why not.</summary>
    private void CheckPhotos()
    {
        foreach ((Guid id, (Device device, string bytes)) in _taken)
        {
            Replica view = device.Load();
            bool isRefused = view.IsPhotoWaiting(id);
            Assert.Equal(bytes, device.Photos[id]);
            Assert.True(isRefused != _server.Photos.ContainsKey(id), $"photo {id} is neither at the server nor shown as refused, or both");
            Assert.Equal(isRefused, bytes.StartsWith(Refused, StringComparison.Ordinal) || !_server.Records.ContainsKey(id));
            Assert.True(isRefused || _server.Photos[id] == bytes);
        }

        Assert.Equal(_server.Photos.Count, _taken.Keys.Count(_server.Photos.ContainsKey));
    }

    /// <summary>A photo: its record and its bytes in one write. Some the server will not have, some for their bytes, some for their record.</summary>
    private void TakePhoto(Device device, int b, int c)
    {
        Replica tab = device.Tabs[b % 2];
        Guid[] known = [.. _yards.Where(id => tab[id] is not null)];
        if (known.Length == 0)
        {
            return;
        }

        string bytes = $"{(c % 7 == 0 ? Refused : "")} photo {_taken.Count}";
        Dictionary<string, JsonElement> set = Set("yard", known[b / 2 % known.Length].ToString());
        if (c % 11 == 0)
        {
            set["caption"] = JsonSerializer.SerializeToElement(Refused);
        }

        Change change = tab.ChangeOf(tab.NewId(device.Clock(_now)), RecordKind.Photo, set, device.Clock(_now));
        WaitingChange waiting = new(change, "somebody", device.Email);
        device.Write(DeviceWrite.Made(waiting) with { Photos = [new(change.Record, "somebody", device.Email)] }, b % 2, bytes);
        _acknowledged.Add(change.Id, (device, change));
        _taken.Add(change.Record, (device, bytes));
    }

    private static DeviceWrite Taken(Replica tab, Guid photo, bool isKept) =>
        isKept ? tab.PhotoArrived(photo) : tab.PhotoRefused(photo, [new("", "no photo", "")]);

    /// <summary>Two changes in one go, the second of which the server refuses without the first: their order has to hold.</summary>
    private void NewYardWithCase(Device device, int b)
    {
        Replica tab = device.Tabs[b % 2];
        Guid yard = tab.NewId(device.Clock(_now)), @case = tab.NewId(device.Clock(_now));
        Change first = tab.ChangeOf(yard, RecordKind.Yard, Set("name", "new"), device.Clock(_now));
        Change second = tab.ChangeOf(@case, RecordKind.Case, Set("yard", yard.ToString()), device.Clock(_now));
        Keep(device, b % 2, first, second);
        _yards.Add(yard);
    }

    private void Edit(Device device, int b, int c)
    {
        Replica tab = device.Tabs[b % 2];
        Guid[] known = [.. _yards.Where(id => tab[id] is not null)];
        if (known.Length == 0)
        {
            return;
        }

        string value = c % 11 == 0 ? Refused : (c % 100).ToString(CultureInfo.InvariantCulture);
        string field = value == Refused ? "name" : Fields[c % Fields.Length];
        Change change = tab.ChangeOf(known[b / 2 % known.Length], RecordKind.Yard, Set(field, value), device.Clock(_now));
        Keep(device, b % 2, change);
    }

    private void Keep(Device device, int tab, params Change[] changes)
    {
        device.Write(DeviceWrite.Made([.. changes.Select(change => new WaitingChange(change, "somebody", device.Email))]), tab);
        foreach (Change change in changes)
        {
            _acknowledged.Add(change.Id, (device, change));
        }
    }

    private void Deliver(int which, bool keep, bool crash)
    {
        if (_underWay.Count == 0)
        {
            return;
        }

        Message message = _underWay[which % _underWay.Count];
        if (!keep)
        {
            _underWay.Remove(message);
        }

        if (message.Changes is { } changes)
        {
            _underWay.Add(message with { Changes = null, Answer = _server.Post(changes, message.Device.Email) });
        }
        else if (message is { Photo: { } photo, Answer: null })
        {
            _underWay.Add(message with { Answer = _server.Put(photo, message.Bytes!) });
        }
        else if (message.Since is { } since)
        {
            _underWay.Add(message with { Since = null, Answer = _server.Page(since, 3) });
        }
        else if (message.Life == message.Device.Life) // an answer to a program that has died reaches nobody
        {
            Device device = message.Device;
            Replica tab = device.Tabs[device.Leader];
            DeviceWrite write = message.Answer switch
            {
                RecordPage page => tab.Taking(page),
                bool isKept => Taken(tab, message.Photo!.Value, isKept),
                _ => tab.Taking((ChangeResults)message.Answer!),
            };
            if (crash)
            {
                device.Crash(); // between reading the answer and writing it down
            }
            else
            {
                device.Write(write);
            }
        }
    }

    private static Dictionary<string, JsonElement> Set(string field, string value) => new() { [field] = JsonSerializer.SerializeToElement(value) };

    private static string Json(RecordState record) => JsonSerializer.Serialize(
        record with { Fields = new SortedDictionary<string, FieldState>(record.Fields.ToDictionary(), StringComparer.Ordinal) },
        WorkshopJson.Default.RecordState);

    private sealed record Message(Device Device, IReadOnlyList<Change>? Changes, long? Since, object? Answer, int Life)
    {
        public Guid? Photo { get; init; }

        public string? Bytes { get; init; }
    }

    private sealed class Device
    {
        private readonly int _number;
        private readonly Dictionary<Guid, RecordState> _records = [];
        private readonly Dictionary<Guid, WaitingChange> _waiting = [];
        private readonly Dictionary<Guid, WaitingPhoto> _sending = [];
        private readonly Queue<DeviceWrite>[] _news = [new(), new()];
        private long _next;

        public Device(int number)
        {
            _number = number;
            Tabs = [Load(), Load()];
        }

        public string Email => $"person{_number}@swardloop.example";

        public Replica[] Tabs { get; }

        /// <summary>Which tab talks to the server.</summary>
        public int Leader { get; private set; }

        /// <summary>Bytes of photos on the disk.</summary>
        public Dictionary<Guid, string> Photos { get; } = [];

        /// <summary>How often it has started.</summary>
        public int Life { get; private set; }

        /// <summary>Clocks that go wrong by a day.</summary>
        public DateTimeOffset Clock(DateTimeOffset now) => now.AddDays(_number - 1);

        public Replica Load() => new(_records.Values.Select(Copy), _waiting.Values, _next, _sending.Values);

        public void Write(DeviceWrite write, int? byTab = null, string? bytes = null)
        {
            foreach (RecordState record in write.Records)
            {
                _records[record.Id] = record;
            }

            foreach (WaitingChange waiting in write.Waiting)
            {
                _waiting[waiting.Change.Id] = waiting;
            }

            foreach (Guid gone in write.Gone)
            {
                _waiting.Remove(gone);
            }

            foreach (WaitingPhoto photo in write.Photos)
            {
                _sending[photo.Id] = photo;
                Photos[photo.Id] = bytes ?? Photos[photo.Id];
            }

            foreach (Guid gone in write.PhotosArrived)
            {
                _sending.Remove(gone);
            }

            _next = write.Next ?? _next;
            int tab = byTab ?? Leader;
            Tabs[tab].Apply(write);
            _news[1 - tab].Enqueue(write);
        }

        /// <summary>A tab hears what the other one wrote.</summary>
        public void Hear(int tab)
        {
            while (_news[tab].TryDequeue(out DeviceWrite? write))
            {
                Tabs[tab].Apply(write);
            }
        }

        /// <summary>Power gone: both tabs start again from the disk, and the other one may come first.</summary>
        public void Crash()
        {
            (Tabs[0], Tabs[1]) = (Load(), Load());
            _news[0].Clear();
            _news[1].Clear();
            Leader = 1 - Leader;
            Life++;
        }

        private static RecordState Copy(RecordState record) => JsonSerializer.Deserialize(
            JsonSerializer.SerializeToUtf8Bytes(record, WorkshopJson.Default.RecordState), WorkshopJson.Default.RecordState)!;
    }

    private sealed class Server
    {
        private long _version;

        public Dictionary<Guid, RecordState> Records { get; } = [];

        public Dictionary<Guid, Change> Journal { get; } = [];

        public Dictionary<Guid, string> Photos { get; } = [];

        /// <summary>Takes the bytes of a photo; the same again is no other.</summary>
        public bool Put(Guid photo, string bytes)
        {
            Assert.True(Records.ContainsKey(photo), "bytes came before their record");
            if (bytes.StartsWith(Refused, StringComparison.Ordinal))
            {
                return false;
            }

            Assert.True(Photos.TryAdd(photo, bytes) || Photos[photo] == bytes);
            return true;
        }

        public ChangeResults Post(IReadOnlyList<Change> changes, string by) => new([.. changes.Select(change => Take(change, by))]);

        public RecordPage Page(long since, int limit)
        {
            RecordState[] all = [.. Records.Values.Where(record => record.Version > since).OrderBy(record => record.Version)];
            RecordState[] page = [.. all.Take(limit)];
            return new(page, page.Length > 0 ? page[^1].Version : since, all.Length <= limit);
        }

        private ChangeResult Take(Change change, string by)
        {
            if (Journal.ContainsKey(change.Id))
            {
                return Answer(change);
            }

            bool makesNoSense = change.Set.TryGetValue("name", out JsonElement name) && name.ValueEquals(Refused)
                || change.Set.TryGetValue("caption", out JsonElement caption) && caption.ValueEquals(Refused)
                || change.Set.TryGetValue("yard", out JsonElement yard) && !Records.ContainsKey(yard.GetGuid());
            if (makesNoSense)
            {
                return new(change.Id, ChangeStatus.Refused, [new("set", "makes no sense", "")], null);
            }

            Journal.Add(change.Id, change);
            Records[change.Record] = (Records.TryGetValue(change.Record, out RecordState? known) ? known : RecordState.New(change.Record, change.Kind))
                .With(change, by, ++_version);
            return Answer(change);
        }

        private ChangeResult Answer(Change change)
        {
            RecordState record = Records[change.Record];
            return new(change.Id, record.Conflicts.Any() ? ChangeStatus.Conflict : ChangeStatus.Kept, [], record);
        }
    }
}
