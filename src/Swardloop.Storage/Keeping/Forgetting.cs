using System.Text.Json;
using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>Forgets an owner: erases in records and in the journal what names the person or where the person lives, and leaves the physics, the
/// lawn, its wire and every reading. Backups made before still hold it.</summary>
public sealed class Forgetting(IDbContextFactory<WorkshopDatabase> databases, IDatabaseEngine engine, ChangeNews news, WriteTurn turn, TimeProvider clock)
{
    private const string ForgottenName = "forgotten";

    private static readonly JsonElement Null = Parsed("null");

    // Of these nothing is left whatever stands in them; other texts only lose what names the person.
    private static readonly string[] ErasedAlways = ["address", "position"];

    /// <summary>Forgets an owner.</summary>
    /// <param name="owner">The owner.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="cancellation">Ends the work; nothing is erased then.</param>
    /// <returns>How many records lost something; null when there is no such owner.</returns>
    public async Task<int?> ForgetAsync(Guid owner, string by, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        await database.Mark.ExecuteUpdateAsync(mark => mark.SetProperty(one => one.LastVersion, one => one.LastVersion), cancellation);
        if (await database.Records.AsNoTracking().AnyAsync(record => record.Id == owner && record.Kind == RecordKind.Owner, cancellation) is false)
        {
            return null;
        }

        List<Guid> yards = await database.Yards.Where(yard => yard.Owner == owner).Select(yard => yard.Yard).ToListAsync(cancellation);
        List<Guid> touched = await database.Records.Where(record => record.Id == owner || (record.Yard != null && yards.Contains(record.Yard.Value)))
            .OrderBy(record => record.Version).Select(record => record.Id).ToListAsync(cancellation);
        IReadOnlyList<string> names = await NamesAsync(database, owner, cancellation);
        List<ChangeNotice> notices = [];
        foreach (Guid record in touched)
        {
            if (await EraseAsync(database, record, record == owner, names, by, cancellation) is { } notice)
            {
                notices.Add(notice);
            }

            database.ChangeTracker.Clear();
        }

        List<Guid> photos = await database.Records.Where(record => record.Kind == RecordKind.Photo && touched.Contains(record.Id)).Select(record => record.Id).ToListAsync(cancellation);
        await database.Photos.Where(photo => photos.Contains(photo.Photo)).ExecuteDeleteAsync(cancellation);
        foreach (ChangeNotice notice in notices)
        {
            await engine.AnnounceAsync(database, notice, cancellation);
        }

        await transaction.CommitAsync(CancellationToken.None);
        if (!engine.BringsNews)
        {
            notices.ForEach(news.Tell);
        }

        return notices.Count;
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

        return [.. names.Where(name => name != ForgottenName)];
    }

    private async Task<ChangeNotice?> EraseAsync(
        WorkshopDatabase database, Guid record, bool isOwner, IReadOnlyList<string> names, string by, CancellationToken cancellation)
    {
        List<JournalEntry> entries = await database.Journal.Where(entry => entry.Record == record).OrderBy(entry => entry.Version).ToListAsync(cancellation);
        StoredRecord stored = await database.Records.SingleAsync(one => one.Id == record, cancellation);
        IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(stored.Kind);
        Dictionary<string, HashSet<Guid>> erased = [];
        foreach (JournalEntry entry in entries)
        {
            Change change = JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!;
            Dictionary<string, JsonElement> set = new(change.Set);
            foreach ((string name, JsonElement value) in change.Set)
            {
                JsonElement left = Left(stored.Kind, fields[name], value, isOwner, names);
                if (!JsonElement.DeepEquals(left, value))
                {
                    set[name] = left;
                    (erased.TryGetValue(name, out HashSet<Guid>? ids) ? ids : erased[name] = []).Add(change.Id);
                }
            }

            entry.Json = JsonSerializer.Serialize(change with { Set = set }, WorkshopJson.Default.Change);
        }

        if (erased.Count == 0)
        {
            return null;
        }

        // The record has to come anew to every device: a change that sets what was erased to what is left of it.
        await database.SaveChangesAsync(cancellation);
        RecordState state = RecordState.New(record, stored.Kind);
        foreach (JournalEntry entry in entries)
        {
            state = state.With(JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!, entry.By, entry.Version);
        }

        await database.Mark.ExecuteUpdateAsync(mark => mark.SetProperty(one => one.LastVersion, one => one.LastVersion + 1), cancellation);
        long version = await database.Mark.Select(mark => mark.LastVersion).SingleAsync(cancellation);
        DateTimeOffset now = clock.GetUtcNow();
        string[] renewed = [.. erased.Keys.Where(name => !fields[name].Once && state[name].Values.Any(value => erased[name].Contains(value.Change)))];
        Change last = new(
            Guid.CreateVersion7(now), stored.Kind, record,
            renewed.ToDictionary(name => name, name => state[name].Shown!.Value), renewed.ToDictionary(name => name, name => state[name].Ids), now);
        state = state.With(last, by, version);
        database.Journal.Add(new()
        {
            Version = version,
            Change = last.Id,
            Record = record,
            Kind = stored.Kind,
            By = by,
            TakenAt = now,
            Json = JsonSerializer.Serialize(last, WorkshopJson.Default.Change),
        });
        stored.Version = version;
        stored.Json = JsonSerializer.Serialize(state, WorkshopJson.Default.RecordState);
        await database.SaveChangesAsync(cancellation);
        await new Lines(database).UpdateAsync(stored, state, now, cancellation);
        await database.SaveChangesAsync(cancellation);
        return new(version, record, stored.Kind);
    }

    /// <summary>What is left of a value.</summary>
    private static JsonElement Left(RecordKind kind, RecordField field, JsonElement value, bool isOwner, IReadOnlyList<string> names)
    {
        if (value.ValueKind is JsonValueKind.Null or JsonValueKind.Undefined)
        {
            return value;
        }

        if (field.Type == FieldType.YardFile)
        {
            // Where the yard is on the earth says where its owner lives; the plan in metres does not.
            return Without(value, names, "datum");
        }

        if (!field.Personal)
        {
            return value;
        }

        if (field.Type == FieldType.Observation)
        {
            return Without(value, names);
        }

        bool goes = isOwner || ErasedAlways.Contains(field.Name) || (kind == RecordKind.Photo && field.Name == "caption") || Names(value, names);
        return !goes ? value : field.Required ? Text(ForgottenName) : Null;
    }

    /// <summary>The object without some members, and with every text in it that names the person taken out.</summary>
    private static JsonElement Without(JsonElement value, IReadOnlyList<string> names, params string[] members)
    {
        JsonNode node = JsonNode.Parse(value.GetRawText())!;
        bool changed = false;
        if (node is JsonObject whole)
        {
            foreach (string member in members)
            {
                changed |= whole.Remove(member);
            }

            foreach (string text in (string[])["name", "note", "found"])
            {
                if (whole[text] is JsonValue there && there.GetValueKind() == JsonValueKind.String && Names(there.GetValue<string>(), names))
                {
                    changed = true;
                    whole.Remove(text);
                    if (text == "name")
                    {
                        whole[text] = ForgottenName;
                    }
                }
            }
        }

        return changed ? Parsed(node.ToJsonString()) : value;
    }

    private static bool Names(JsonElement value, IReadOnlyList<string> names) => value.ValueKind == JsonValueKind.String && Names(value.GetString()!, names);

    private static bool Names(string text, IReadOnlyList<string> names)
    {
        // A name of one word must be a word of the text: Tom is not in "bottom".
        string folded = SearchText.Of(text);
        string[] words = folded.Split([.. folded.Where(c => !char.IsLetterOrDigit(c)).Distinct()], StringSplitOptions.RemoveEmptyEntries);
        return names.Any(name => name.All(char.IsLetterOrDigit) ? words.Contains(name) : folded.Contains(name, StringComparison.Ordinal));
    }

    private static JsonElement Text(string text) => Parsed(JsonSerializer.Serialize(text));

    private static JsonElement Parsed(string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        return document.RootElement.Clone();
    }
}
