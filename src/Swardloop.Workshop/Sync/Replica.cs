using System.Text.Json;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Sync;

/// <summary>What one device knows: the server's records as far as they arrived, and its own changes that the server has not confirmed, laid
/// over them. It decides what is to be written; whoever holds the store writes it, and only then hands it to <see cref="Apply"/>. So
/// memory never knows more than the disk, and a crash between any two steps loses nothing that was shown as saved.</summary>
/// <remarks>Not safe for several threads.</remarks>
public sealed class Replica
{
    private readonly Dictionary<Guid, RecordState> _records = [];
    private readonly SortedDictionary<Guid, WaitingChange> _waiting = [];
    private readonly SortedDictionary<Guid, WaitingPhoto> _photos = [];
    private readonly Dictionary<Guid, RecordState> _shown = [];
    private readonly Dictionary<Guid, HashSet<Guid>> _ofYard = [];
    private readonly ChangeIds _ids = new();

    /// <summary>A device as its store has it.</summary>
    public Replica(IEnumerable<RecordState> records, IEnumerable<WaitingChange> waiting, long next, IEnumerable<WaitingPhoto>? photos = null) =>
        Apply(new([.. records], [.. waiting], [], next) { Photos = [.. photos ?? []] });

    /// <summary>From where to ask the server for what follows.</summary>
    public long Next { get; private set; }

    /// <summary>Changes that wait or were refused, in the order in which they were made.</summary>
    public IReadOnlyCollection<WaitingChange> Waiting => _waiting.Values;

    /// <summary>Photos whose bytes wait or were refused, in the order in which they were taken.</summary>
    public IReadOnlyCollection<WaitingPhoto> WaitingPhotos => _photos.Values;

    /// <summary>Ids of all records.</summary>
    public IReadOnlyCollection<Guid> Ids => _shown.Keys;

    /// <summary>A record as this device shows it: the server's state and the changes that wait; null when it knows none.</summary>
    public RecordState? this[Guid id] => _shown.GetValueOrDefault(id);

    /// <summary>A record as this device shows it, or a new one.</summary>
    public RecordState Get(Guid id, RecordKind kind) => _shown.TryGetValue(id, out RecordState? known) ? known : RecordState.New(id, kind);

    /// <summary>All records of a kind.</summary>
    public IEnumerable<RecordState> OfKind(RecordKind kind) => _shown.Values.Where(record => record.Kind == kind);

    /// <summary>All records of a kind that belong to a yard.</summary>
    public IEnumerable<RecordState> OfYard(Guid yard, RecordKind kind) =>
        _ofYard.TryGetValue(yard, out HashSet<Guid>? ids)
            ? ids.Select(id => _shown[id]).Where(record => record.Kind == kind && record.Reference("yard") == yard)
            : [];

    /// <summary>Whether a record has a change that the server has not confirmed.</summary>
    public bool IsWaiting(Guid record) => _waiting.Values.Any(waiting => waiting.Change.Record == record && waiting.Refusal is null);

    /// <summary>A new id, greater than all of this device.</summary>
    public Guid NewId(DateTimeOffset now) => _ids.Next(now);

    /// <summary>A change that has seen what this device shows now. It is not part of the replica before it is written and applied.</summary>
    /// <param name="record">The record; a new id makes a new record.</param>
    /// <param name="kind">Its kind.</param>
    /// <param name="set">New values.</param>
    /// <param name="now">By the device's clock.</param>
    public Change ChangeOf(Guid record, RecordKind kind, IReadOnlyDictionary<string, JsonElement> set, DateTimeOffset now)
    {
        RecordState before = Get(record, kind);
        Dictionary<string, IReadOnlyList<Guid>> seen = [];
        foreach (string field in set.Keys.Where(field => before[field].Values.Count > 0))
        {
            seen[field] = before[field].Ids;
        }

        return new(NewId(now), kind, record, set, seen, now);
    }

    /// <summary>The oldest changes of a person that wait.</summary>
    /// <param name="email">Sign-in name.</param>
    public IReadOnlyList<Change> Outgoing(string email) =>
    [
        .. _waiting.Values.Where(waiting => waiting.Refusal is null && waiting.Email == email)
            .Select(waiting => waiting.Change).Take(ChangeBatch.MostChanges),
    ];

    /// <summary>The oldest photo of a person whose bytes can go out: the server has its record. Null when there is none.</summary>
    /// <param name="email">Sign-in name.</param>
    public WaitingPhoto? OutgoingPhoto(string email) =>
        _photos.Values.FirstOrDefault(photo => photo.Refusal is null && photo.Email == email && _records.ContainsKey(photo.Id));

    /// <summary>Whether the bytes of a photo wait on this device.</summary>
    public bool IsPhotoWaiting(Guid photo) => _photos.ContainsKey(photo);

    /// <summary>The server has a photo's bytes.</summary>
    public DeviceWrite PhotoArrived(Guid photo) => new([], [], [], null) { PhotosArrived = _photos.ContainsKey(photo) ? [photo] : [] };

    /// <summary>The server will not have a photo's bytes. They stay here with the reason.</summary>
    public DeviceWrite PhotoRefused(Guid photo, IReadOnlyList<FieldProblem> reason) =>
        new([], [], [], null) { Photos = _photos.TryGetValue(photo, out WaitingPhoto? there) ? [there with { Refusal = reason }] : [] };

    /// <summary>Sends a refused photo once more, or throws it away, after a person has read why.</summary>
    public DeviceWrite SettlingPhoto(Guid photo, bool again) => !_photos.TryGetValue(photo, out WaitingPhoto? there) || there.Refusal is null
        ? new([], [], [], null)
        : again ? new([], [], [], null) { Photos = [there with { Refusal = null }] } : new([], [], [], null) { PhotosThrownAway = [photo] };

    /// <summary>What a page from the server brings.</summary>
    public DeviceWrite Taking(RecordPage page) =>
        new([.. page.Records.Where(IsNews)], [], [], page.Next > Next ? page.Next : null);

    /// <summary>What the server's answer to changes brings: the confirmed ones may go, the refused ones stay with the reason.</summary>
    public DeviceWrite Taking(ChangeResults results)
    {
        Dictionary<Guid, RecordState> records = [];
        List<WaitingChange> refused = [];
        List<Guid> gone = [];
        foreach (ChangeResult result in results.Results)
        {
            if (result.Record is { } record && IsNews(record) && (!records.TryGetValue(record.Id, out RecordState? other) || other.Version < record.Version))
            {
                records[record.Id] = record;
            }

            if (!_waiting.TryGetValue(result.Id, out WaitingChange? waiting))
            {
                continue;
            }

            if (result.Status is ChangeStatus.Kept or ChangeStatus.Conflict)
            {
                gone.Add(result.Id);
            }
            else if (result.Status == ChangeStatus.Refused && waiting.Refusal is null)
            {
                refused.Add(waiting with { Refusal = result.Problems });
            }
        }

        return new([.. records.Values], refused, gone, null);
    }

    /// <summary>Throws a refused change away, after a person has read it. A photo whose record the server never had goes with it.</summary>
    public DeviceWrite ThrowingAway(Guid change) => !_waiting.TryGetValue(change, out WaitingChange? there) || there.Refusal is null
        ? new([], [], [], null)
        : new([], [], [change], null)
        {
            PhotosThrownAway = _photos.ContainsKey(there.Change.Record) && !_records.ContainsKey(there.Change.Record)
                && _waiting.Values.Count(waiting => waiting.Change.Record == there.Change.Record) == 1 ? [there.Change.Record] : [],
        };

    /// <summary>Sends a refused change once more: what it lacked may be there now.</summary>
    public DeviceWrite TryingAgain(Guid change) =>
        new([], _waiting.TryGetValue(change, out WaitingChange? there) ? [there with { Refusal = null }] : [], [], null);

    /// <summary>Takes in what was written, by this tab or another.</summary>
    /// <returns>Records that look different now.</returns>
    public IReadOnlyCollection<Guid> Apply(DeviceWrite written)
    {
        HashSet<Guid> touched = [];
        foreach (RecordState record in written.Records.Where(IsNews))
        {
            _records[record.Id] = record;
            touched.Add(record.Id);
        }

        foreach (WaitingChange waiting in written.Waiting)
        {
            _waiting[waiting.Change.Id] = waiting;
            _ids.Saw(waiting.Change.Id);
            touched.Add(waiting.Change.Record);
        }

        foreach (Guid gone in written.Gone)
        {
            if (_waiting.Remove(gone, out WaitingChange? was))
            {
                touched.Add(was.Change.Record);
            }
        }

        foreach (WaitingPhoto photo in written.Photos)
        {
            _photos[photo.Id] = photo;
            _ids.Saw(photo.Id);
        }

        foreach (Guid gone in written.PhotosArrived.Concat(written.PhotosThrownAway))
        {
            _photos.Remove(gone);
        }

        Next = Math.Max(Next, written.Next ?? 0);
        Show(touched);
        return touched;
    }

    private bool IsNews(RecordState record) => !_records.TryGetValue(record.Id, out RecordState? known) || known.Version < record.Version;

    private void Show(HashSet<Guid> touched)
    {
        foreach (Guid id in touched)
        {
            _shown.Remove(id);
            if (_records.TryGetValue(id, out RecordState? record))
            {
                _shown[id] = record;
            }
        }

        foreach (WaitingChange waiting in _waiting.Values.Where(waiting => waiting.Refusal is null && touched.Contains(waiting.Change.Record)))
        {
            _shown[waiting.Change.Record] = Get(waiting.Change.Record, waiting.Change.Kind).With(waiting.Change, waiting.By);
        }

        foreach (Guid id in touched)
        {
            if (_shown.TryGetValue(id, out RecordState? record) && record.Reference("yard") is { } yard)
            {
                if (!_ofYard.TryGetValue(yard, out HashSet<Guid>? ids))
                {
                    _ofYard[yard] = ids = [];
                }

                ids.Add(id);
            }
            else
            {
                foreach (HashSet<Guid> ids in _ofYard.Values)
                {
                    ids.Remove(id);
                }
            }
        }
    }
}
