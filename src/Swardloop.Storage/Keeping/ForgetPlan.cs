using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>What belongs to an owner, and what of it would go.</summary>
/// <remarks>The person's are: the owner's own record and its photos; yards while they were the person's, with cases, observations, visits, photos and
/// links begun in that time; and, wherever else, texts that name the person.</remarks>
internal sealed class ForgetPlan
{
    private readonly HashSet<Guid> _whole = [], _sold = [], _elsewhere = [];
    private readonly Dictionary<string, string> _guides = new(StringComparer.Ordinal);
    private readonly IReadOnlyList<string> _names;
    private readonly Guid _owner;

    private ForgetPlan(Guid owner, IReadOnlyList<string> names) => (_owner, _names) = (owner, names);

    /// <summary>Records that may lose something, in the order in which they last changed.</summary>
    public IReadOnlyList<Guid> Records { get; private set; } = [];

    /// <summary>Photos whose bytes go.</summary>
    public IReadOnlyList<Guid> Photos { get; private set; } = [];

    /// <summary>Links that stop opening.</summary>
    public IReadOnlyList<Guid> Links { get; private set; } = [];

    /// <summary>Makes the plan.</summary>
    /// <returns>Null when there is no such owner.</returns>
    public static async Task<ForgetPlan?> OfAsync(WorkshopDatabase database, Guid owner, CancellationToken cancellation)
    {
        if (!await database.Records.AsNoTracking().AnyAsync(record => record.Id == owner && record.Kind == RecordKind.Owner, cancellation))
        {
            return null;
        }

        ForgetPlan plan = new(owner, await NamesAsync(database, owner, cancellation));
        plan._whole.Add(owner);
        Dictionary<Guid, long> begun = await database.Journal.AsNoTracking().GroupBy(entry => entry.Record)
            .Select(of => new { of.Key, First = of.Min(entry => entry.Version) }).ToDictionaryAsync(one => one.Key, one => one.First, cancellation);
        foreach ((Guid yard, List<(long From, long To)> times) in await TimesAsync(database, owner, cancellation))
        {
            (times[^1].To == long.MaxValue ? plan._whole : plan._sold).Add(yard);
            foreach (Guid record in await database.Records.AsNoTracking().Where(one => one.Yard == yard && one.Id != yard).Select(one => one.Id).ToListAsync(cancellation))
            {
                if (begun.TryGetValue(record, out long first) && times.Any(time => first >= time.From && first < time.To))
                {
                    plan._whole.Add(record);
                }
            }
        }

        // Photos of the owner's record lie in no yard.
        foreach (StoredRecord photo in await database.Records.AsNoTracking().Where(one => one.Kind == RecordKind.Photo && one.Yard == null).ToListAsync(cancellation))
        {
            if (Journal.StateOf(photo)["of"].Values.Any(of => of.Value.TryGetReference(out Guid named) && plan._whole.Contains(named)))
            {
                plan._whole.Add(photo.Id);
            }
        }

        await plan.FindElsewhereAsync(database, cancellation);
        HashSet<Guid> all = [.. plan._whole, .. plan._sold, .. plan._elsewhere];
        var kinds = await database.Records.AsNoTracking().OrderBy(record => record.Version).Select(record => new { record.Id, record.Kind }).ToListAsync(cancellation);
        plan.Records = [.. kinds.Where(one => all.Contains(one.Id)).Select(one => one.Id)];
        plan.Photos = [.. kinds.Where(one => one.Kind == RecordKind.Photo && plan._whole.Contains(one.Id)).Select(one => one.Id)];
        plan.Links = [.. kinds.Where(one => one.Kind == RecordKind.OwnerLink && plan._whole.Contains(one.Id)).Select(one => one.Id)];
        return plan;
    }

    /// <summary>Whether a record gets the mark by which what was written before is refused.</summary>
    public bool IsMarked(Guid record, RecordKind kind) => _whole.Contains(record) && RecordFields.Of(kind).ContainsKey(RecordFields.ForgottenAt);

    /// <summary>What is left of a value.</summary>
    /// <param name="record">Its record.</param>
    /// <param name="kind">The record's kind.</param>
    /// <param name="field">Its field.</param>
    /// <param name="value">The value.</param>
    /// <param name="isShown">Whether it is what the record shows now.</param>
    private JsonElement Left(Guid record, RecordKind kind, RecordField field, JsonElement value, bool isShown)
    {
        // Wholly the person's: guide wires lose their names too, the same in the yard and in its readings.
        if (_whole.Contains(record))
        {
            return Renamed(field, PersonalText.Without(field, value));
        }

        bool names = PersonalText.In(field, value).Any(text => Names(text.Text));
        if (_elsewhere.Contains(record) && !names)
        {
            return value;
        }

        // A yard that is another's now: what it is called and where it lies is theirs.
        return _sold.Contains(record) && isShown && field.Name is "name" or "address" or "file" && !names && kind == RecordKind.Yard
            ? value
            : PersonalText.Without(field, value);
    }

    /// <summary>What a change loses, field by field: what it said, and what is left of it. What is shown beforehand and what is done are the same.</summary>
    public IEnumerable<(RecordField Field, JsonElement Value, JsonElement Left)> Lost(RecordState state, Change change)
    {
        foreach ((string name, JsonElement value) in change.Set)
        {
            RecordField field = RecordFields.Of(state.Kind)[name];
            JsonElement left = Left(state.Id, state.Kind, field, value, IsShown(state, name, change.Id));
            if (!JsonElement.DeepEquals(left, value))
            {
                yield return (field, value, left);
            }
        }
    }

    /// <summary>What is left of a value whose texts were looked at and stay: guide wires have their new names in it.</summary>
    public JsonElement Kept(Guid record, RecordField field, JsonElement value) => _whole.Contains(record) ? Renamed(field, value) : value;

    /// <summary>Names of guide wires that go with a value.</summary>
    public IReadOnlyList<(string Path, string Text)> GuidesIn(Guid record, RecordField field, JsonElement value) => _whole.Contains(record) ? PersonalText.GuidesIn(field, value) : [];

    private JsonElement Renamed(RecordField field, JsonElement value) => PersonalText.Renamed(field, value, name =>
        _guides.TryGetValue(name, out string? known) ? known : _guides[name] = $"{PersonalText.Forgotten} {RandomNumberGenerator.GetHexString(6, lowercase: true)}");

    /// <summary>What goes, entry by entry of the journal.</summary>
    public async Task<IReadOnlyList<ForgetText>> TextsAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        List<ForgetText> texts = [];
        HashSet<(string, string, string)> known = [];
        foreach (Guid record in Records)
        {
            StoredRecord stored = await database.Records.AsNoTracking().SingleAsync(one => one.Id == record, cancellation);
            RecordState state = Journal.StateOf(stored);
            foreach (JournalEntry entry in await database.Journal.AsNoTracking().Where(entry => entry.Record == record).OrderBy(entry => entry.Version).ToListAsync(cancellation))
            {
                Change change = JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!;
                foreach ((RecordField field, JsonElement value, _) in Lost(state, change))
                {
                    string key = KeyOf(record, field.Name);
                    foreach ((string path, string text) in GuidesIn(record, field, value))
                    {
                        if (known.Add((key, path, text)))
                        {
                            texts.Add(new(key, stored.Kind, field.Name, path, text, MayStay: false, _elsewhere.Contains(record)));
                        }
                    }

                    foreach ((string path, string text) in PersonalText.In(field, value))
                    {
                        if (known.Add((key, path, text)))
                        {
                            texts.Add(new(key, stored.Kind, field.Name, path, text, MayStay(stored.Kind, field), _elsewhere.Contains(record)));
                        }
                    }
                }
            }
        }

        return texts;
    }

    /// <summary>Names a field of a record.</summary>
    public static string KeyOf(Guid record, string field) => $"{record}/{field}";

    /// <summary>Whether a text may be left after somebody has looked at it.</summary>
    public static bool MayStay(RecordKind kind, RecordField field) =>
        kind != RecordKind.Owner && field.Type is FieldType.Text or FieldType.Observation && field.Name is not ("address" or "name");

    /// <summary>Whether a change's value is among those that a record shows.</summary>
    private static bool IsShown(RecordState state, string field, Guid change) => state[field].Values.Any(value => value.Change == change);

    // A yard is somebody's from the change that says so to the one that says otherwise; to its first owner it belongs from its beginning.
    private static async Task<Dictionary<Guid, List<(long From, long To)>>> TimesAsync(WorkshopDatabase database, Guid owner, CancellationToken cancellation)
    {
        Dictionary<Guid, List<(long From, long To)>> times = [];
        HashSet<Guid> hadOwner = [];
        await foreach (JournalEntry entry in database.Journal.AsNoTracking().Where(entry => entry.Kind == RecordKind.Yard).OrderBy(entry => entry.Version).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            if (!JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!.Set.TryGetValue("owner", out JsonElement named))
            {
                continue;
            }

            bool isOurs = named.TryGetReference(out Guid whose) && whose == owner;
            List<(long From, long To)> known = times.TryGetValue(entry.Record, out List<(long, long)>? there) ? there : times[entry.Record] = [];
            if (isOurs && (known.Count == 0 || known[^1].To != long.MaxValue))
            {
                known.Add((hadOwner.Contains(entry.Record) ? entry.Version : 0, long.MaxValue));
            }
            else if (!isOurs && known.Count > 0 && known[^1].To == long.MaxValue)
            {
                known[^1] = (known[^1].From, entry.Version);
            }

            hadOwner.Add(entry.Record);
        }

        return times.Where(one => one.Value.Count > 0).ToDictionary(one => one.Key, one => one.Value);
    }

    /// <summary>By what words the person is known: every name, telephone, e-mail and address the record ever had.</summary>
    private static async Task<IReadOnlyList<string>> NamesAsync(WorkshopDatabase database, Guid owner, CancellationToken cancellation)
    {
        List<JournalEntry> entries = await database.Journal.AsNoTracking().Where(entry => entry.Record == owner).ToListAsync(cancellation);
        HashSet<string> names = new(StringComparer.Ordinal);
        foreach ((string field, JsonElement value) in entries.SelectMany(entry => JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!.Set))
        {
            if (field is "name" or "phone" or "email" or "address" && value.ValueKind == JsonValueKind.String)
            {
                string text = value.GetString()!;
                names.UnionWith(SearchText.Of(text).Split('\n', StringSplitOptions.RemoveEmptyEntries));
                if (field == "name")
                {
                    names.UnionWith(SearchText.Words(text).Where(word => word.Length > 2));
                }
            }
        }

        return [.. names.Where(name => name != PersonalText.Forgotten)];
    }

    private async Task FindElsewhereAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        if (_names.Count == 0)
        {
            return;
        }

        await foreach (JournalEntry entry in database.Journal.AsNoTracking().AsAsyncEnumerable().WithCancellation(cancellation))
        {
            if (_whole.Contains(entry.Record) || _sold.Contains(entry.Record) || _elsewhere.Contains(entry.Record) || (entry.Kind == RecordKind.Owner && entry.Record != _owner))
            {
                continue; // another owner of the same name is somebody else
            }

            IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(entry.Kind);
            if (JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!.Set.Any(set => PersonalText.In(fields[set.Key], set.Value).Any(text => Names(text.Text))))
            {
                _elsewhere.Add(entry.Record);
            }
        }
    }

    private bool Names(string text)
    {
        // A name of one word must begin a word of the text: Tom is not in "bottom", Brook is in "Brook's".
        string folded = SearchText.Of(text);
        string[] words = folded.Split([.. folded.Where(c => !char.IsLetterOrDigit(c)).Distinct()], StringSplitOptions.RemoveEmptyEntries);
        return _names.Any(name => name.All(char.IsLetterOrDigit) ? words.Any(word => Inflects(word, name)) : folded.Contains(name, StringComparison.Ordinal));
    }

    // The ends that English and German put to a name.
    private static bool Inflects(string word, string name) =>
        word.StartsWith(name, StringComparison.Ordinal) && word[name.Length..] is "" or "s" or "es" or "n" or "en" or "ns" or "ens" or "sche" or "schen" or "scher";
}
