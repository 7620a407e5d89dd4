using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>Forgets an owner: empties every free text of the person's records, in the records and in the journal, deletes the photos, closes the links, and leaves
/// the physics: the lawn, its wire and every reading. What devices still hold from before is refused when it comes. Backups made before still hold it.</summary>
public sealed class Forgetting(IDbContextFactory<WorkshopDatabase> databases, IDatabaseEngine engine, ChangeNews news, WriteTurn turn, TimeProvider clock)
{
    /// <summary>What would go.</summary>
    /// <param name="owner">The owner.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <returns>Null when there is no such owner.</returns>
    public async Task<ForgetPreview?> PreviewAsync(Guid owner, CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        await using IDbContextTransaction snapshot = await engine.SnapshotAsync(database, cancellation);
        return await ForgetPlan.OfAsync(database, owner, cancellation) is { } plan
            ? new(await plan.TextsAsync(database, cancellation), plan.Photos.Count, plan.Links.Count)
            : null;
    }

    /// <summary>Forgets an owner.</summary>
    /// <param name="owner">The owner.</param>
    /// <param name="keep">Keys of texts that were looked at and stay; see <see cref="ForgetText.MayStay"/>.</param>
    /// <param name="by">Who asks for it.</param>
    /// <param name="cancellation">Ends the work; nothing is erased then.</param>
    /// <returns>What went; null when there is no such owner.</returns>
    public async Task<ForgetReport?> ForgetAsync(Guid owner, IReadOnlyCollection<string> keep, string by, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        DateTimeOffset now = clock.GetUtcNow();
        List<ChangeNotice> notices = [];
        Erased erased = new([.. keep]);
        ForgetPlan? plan;
        int photos;
        await using (IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation))
        {
            await database.Mark.ExecuteUpdateAsync(mark => mark.SetProperty(one => one.LastVersion, one => one.LastVersion), cancellation);
            plan = await ForgetPlan.OfAsync(database, owner, cancellation);
            if (plan is null)
            {
                return null;
            }

            foreach (Guid record in plan.Records)
            {
                if (await EraseAsync(database, plan, record, erased, by, now, cancellation) is { } notice)
                {
                    notices.Add(notice);
                }

                database.ChangeTracker.Clear();
            }

            IReadOnlyList<Guid> gone = plan.Photos;
            photos = await database.Photos.Where(photo => gone.Contains(photo.Photo)).ExecuteDeleteAsync(cancellation);
            foreach (ChangeNotice notice in notices)
            {
                await engine.AnnounceAsync(database, notice, cancellation);
            }

            await transaction.CommitAsync(CancellationToken.None);
        }

        if (!engine.BringsNews)
        {
            notices.ForEach(news.Tell);
        }

        IReadOnlyList<string> files = await engine.WipeFreedAsync(database, CancellationToken.None);
        return new(notices.Count, erased.Texts, photos, plan.Links.Count, erased.Left, now, files);
    }

    private static async Task<ChangeNotice?> EraseAsync(
        WorkshopDatabase database, ForgetPlan plan, Guid record, Erased erased, string by, DateTimeOffset now, CancellationToken cancellation)
    {
        List<JournalEntry> entries = await database.Journal.Where(entry => entry.Record == record).OrderBy(entry => entry.Version).ToListAsync(cancellation);
        StoredRecord stored = await database.Records.SingleAsync(one => one.Id == record, cancellation);
        IReadOnlyDictionary<string, RecordField> fields = RecordFields.Of(stored.Kind);
        RecordState before = Journal.StateOf(stored);
        Dictionary<string, HashSet<Guid>> touched = [];
        foreach (JournalEntry entry in entries)
        {
            Change change = JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!;
            Dictionary<string, JsonElement> set = new(change.Set);
            foreach ((RecordField field, JsonElement value, JsonElement left) in plan.Lost(before, change))
            {
                string name = field.Name;
                JsonElement stays = left;
                int texts = PersonalText.In(field, value).Count;
                if (ForgetPlan.MayStay(stored.Kind, field) && erased.Keep.Contains(ForgetPlan.KeyOf(record, name)))
                {
                    erased.Left += texts > 0 ? 1 : 0;
                    stays = plan.Kept(record, field, value);
                    if (JsonElement.DeepEquals(stays, value))
                    {
                        continue;
                    }
                }
                else
                {
                    erased.Texts += texts;
                }

                set[name] = stays;
                erased.Texts += plan.GuidesIn(record, field, value).Count;
                (touched.TryGetValue(name, out HashSet<Guid>? ids) ? ids : touched[name] = []).Add(change.Id);
            }

            entry.Json = JsonSerializer.Serialize(change with { Set = set }, WorkshopJson.Default.Change);
        }

        Dictionary<string, JsonElement> also = [];
        if (plan.IsMarked(record, stored.Kind))
        {
            also[RecordFields.ForgottenAt] = JsonSerializer.SerializeToElement(now, WorkshopJson.Default.DateTimeOffset);
        }

        if (stored.Kind == RecordKind.OwnerLink && plan.Links.Contains(record))
        {
            also["revoked"] = JsonSerializer.SerializeToElement(true, WorkshopJson.Default.Boolean);
        }

        if (touched.Count == 0 && also.Count == 0)
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
        foreach (string name in touched.Keys.Where(name => !fields[name].Once && state[name].Values.Any(value => touched[name].Contains(value.Change))))
        {
            also[name] = state[name].Shown!.Value;
        }

        Change last = new(Guid.CreateVersion7(now), stored.Kind, record, also, also.Keys.ToDictionary(name => name, name => state[name].Ids), now);
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

    private sealed class Erased(HashSet<string> keep)
    {
        public HashSet<string> Keep { get; } = keep;

        public int Texts { get; set; }

        public int Left { get; set; }
    }
}
