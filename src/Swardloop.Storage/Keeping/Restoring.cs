using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>Restores a backup into an empty database, in one transaction, and compares what came out with what went in.</summary>
public static class Restoring
{
    /// <summary>Restores.</summary>
    /// <param name="database">An empty database, whose tables are there.</param>
    /// <param name="file">The backup; seekable.</param>
    /// <param name="cancellation">Ends the work; nothing is written then.</param>
    /// <exception cref="InvalidDataException">It is no backup, a damaged one, or one of another format; or the database is not empty. Nothing is written.</exception>
    public static async Task<BackupManifest> RestoreAsync(WorkshopDatabase database, Stream file, CancellationToken cancellation)
    {
        if (await database.Mark.AnyAsync(cancellation) || await database.Users.AnyAsync(cancellation))
        {
            throw new InvalidDataException("there is a workshop already; a backup is restored into an empty place");
        }

        try
        {
            using BackupFile backup = await BackupFile.OpenAsync(file, cancellation);
            await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
            database.Mark.Add(new() { Workshop = backup.Manifest.Workshop, IsDemo = backup.Manifest.IsDemo, LastVersion = backup.Manifest.LastVersion });
            await SaveAsync(database, Backup.ManifestName, 0, cancellation);
            List<Origin> records = await JournalAsync(database, backup, cancellation);
            await RecordsAsync(database, records, cancellation);
            await AccountsAsync(database, backup, cancellation);
            await PhotosAsync(database, backup, cancellation);
            await CompareAsync(database, backup.Manifest, cancellation);
            await transaction.CommitAsync(cancellation);
            return backup.Manifest;
        }
        catch (ArgumentException fault)
        {
            // Values that no program of ours writes, such as a change of one kind on a record of another.
            throw new InvalidDataException($"it holds what no workshop holds: {fault.Message}", fault);
        }
    }

    private static async Task<List<Origin>> JournalAsync(WorkshopDatabase database, BackupFile backup, CancellationToken cancellation)
    {
        Dictionary<Guid, Origin> records = [];
        long last = 0;
        await foreach ((int line, KeptEntry kept) in backup.LinesAsync(Backup.JournalName, KeepingJson.Default.KeptEntry, cancellation))
        {
            if (kept.Version != ++last)
            {
                throw new InvalidDataException($"{Backup.JournalName}: line {line} is change {kept.Version}, and change {last} is due");
            }

            Guid record = kept.Change.Record;
            records[record] = records.TryGetValue(record, out Origin? known)
                ? known with { Version = kept.Version, Last = kept.TakenAt }
                : new(record, kept.Change.Kind, kept.Version, kept.TakenAt, kept.TakenAt);
            database.Journal.Add(new()
            {
                Version = kept.Version,
                Change = kept.Change.Id,
                Record = record,
                Kind = kept.Change.Kind,
                By = kept.By,
                TakenAt = kept.TakenAt,
                Json = JsonSerializer.Serialize(kept.Change, WorkshopJson.Default.Change),
            });
            await SaveAsync(database, Backup.JournalName, line, cancellation);
        }

        // What others refer to comes first; within a kind, the order in which they last changed.
        return [.. records.Values.OrderBy(record => record.Kind).ThenBy(record => record.Version)];
    }

    // From the journal in the database, record by record: a large workshop's records do not have to be in memory together.
    private static async Task RecordsAsync(WorkshopDatabase database, List<Origin> records, CancellationToken cancellation)
    {
        foreach (Origin origin in records)
        {
            List<JournalEntry> entries = await database.Journal.AsNoTracking().Where(entry => entry.Record == origin.Id).OrderBy(entry => entry.Version).ToListAsync(cancellation);
            RecordState state = RecordState.New(origin.Id, origin.Kind);
            foreach (JournalEntry entry in entries)
            {
                state = state.With(JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!, entry.By, entry.Version);
            }

            StoredRecord stored = new()
            {
                Id = state.Id,
                Kind = state.Kind,
                Version = state.Version,
                Json = JsonSerializer.Serialize(state, WorkshopJson.Default.RecordState),
            };
            await new RecordPlaces(database).PlaceAsync(stored, state, cancellation);
            database.Records.Add(stored);
            await database.SaveChangesAsync(cancellation);
            await new Lines(database).UpdateAsync(stored, state, state.Kind == RecordKind.Case ? origin.First : origin.Last, cancellation);
            await SaveAsync(database, Backup.JournalName, 0, cancellation);
        }
    }

    private static async Task AccountsAsync(WorkshopDatabase database, BackupFile backup, CancellationToken cancellation)
    {
        await foreach ((int line, KeptAccount kept) in backup.LinesAsync(Backup.AccountsName, KeepingJson.Default.KeptAccount, cancellation))
        {
            database.Users.Add(new()
            {
                Id = kept.Id,
                DisplayName = kept.Name,
                UserName = kept.Email,
                NormalizedUserName = kept.Email.ToUpperInvariant(),
                Email = kept.Email,
                NormalizedEmail = kept.Email.ToUpperInvariant(),
                Role = kept.Role,
                MustChangePassword = kept.MustChangePassword,
                LockoutEnabled = true,
                LockoutEnd = kept.LockedUntil,
                PasswordHash = kept.PasswordHash,
                PasswordUntil = kept.PasswordUntil,
                SecurityStamp = Guid.NewGuid().ToString("N"),
            });
            database.UserPasskeys.AddRange((kept.Passkeys ?? []).Select(passkey =>
                new IdentityUserPasskey<Guid> { UserId = kept.Id, CredentialId = passkey.CredentialId, Data = passkey.Data }));
            foreach (PracticeRun run in kept.Practice ?? [])
            {
                run.Account = kept.Id;
                database.Practice.Add(run);
            }

            await SaveAsync(database, Backup.AccountsName, line, cancellation);
        }
    }

    private static async Task PhotosAsync(WorkshopDatabase database, BackupFile backup, CancellationToken cancellation)
    {
        foreach (string name in backup.NamesIn(Backup.Photos))
        {
            string file = name[Backup.Photos.Length..];
            if (!file.EndsWith(".jpg", StringComparison.Ordinal) || !Guid.TryParseExact(file[..^4], "D", out Guid photo))
            {
                throw new InvalidDataException($"{name} is no photo's name");
            }

            database.Photos.Add(new()
            {
                Photo = photo,
                MediaType = "image/jpeg",
                Bytes = await backup.BytesAsync(name, cancellation),
                Small = await backup.BytesAsync($"{Backup.SmallPhotos}{file}", cancellation),
            });
            await SaveAsync(database, name, 0, cancellation);
        }
    }

    private static async Task CompareAsync(WorkshopDatabase database, BackupManifest manifest, CancellationToken cancellation)
    {
        int accounts = await database.Users.CountAsync(cancellation), photos = await database.Photos.CountAsync(cancellation);
        long changes = await database.Journal.LongCountAsync(cancellation);
        if (accounts != manifest.Accounts || photos != manifest.Photos || changes != manifest.LastVersion
            || await RecordsDigest.OfAsync(database, cancellation) != manifest.RecordsDigest)
        {
            throw new InvalidDataException(
                $"what came out is not what went in: {changes} of {manifest.LastVersion} changes, {accounts} of {manifest.Accounts} accounts, {photos} of {manifest.Photos} photos, or other records");
        }

        foreach (Guid id in manifest.Hashes is null ? [] : await database.Photos.Select(photo => photo.Photo).ToListAsync(cancellation))
        {
            StoredPhoto photo = await database.Photos.AsNoTracking().SingleAsync(one => one.Photo == id, cancellation);
            if (!IsAs($"{Backup.Photos}{id}.jpg", photo.Bytes) || !IsAs($"{Backup.SmallPhotos}{id}.jpg", photo.Small))
            {
                throw new InvalidDataException($"what came out is not what went in: photo {id}");
            }
        }

        bool IsAs(string name, byte[] bytes) =>
            manifest.Hashes!.TryGetValue(name, out string? hash) && hash == Convert.ToHexStringLower(SHA256.HashData(bytes));
    }

    private static async Task SaveAsync(WorkshopDatabase database, string name, int line, CancellationToken cancellation)
    {
        try
        {
            await database.SaveChangesAsync(cancellation);
        }
        catch (DbUpdateException fault) when (fault.InnerException is System.Data.Common.DbException { IsTransient: false } && IsDoubled(fault.InnerException.Message))
        {
            throw new InvalidDataException($"{name}{(line > 0 ? $": line {line}" : "")} holds again what came before in it", fault);
        }

        database.ChangeTracker.Clear();
    }

    // Both databases say so in their messages, each by a number of its own.
    private static bool IsDoubled(string message) => message.Contains("UNIQUE", StringComparison.OrdinalIgnoreCase);

    /// <summary>A record and when it was first and last changed.</summary>
    private sealed record Origin(Guid Id, RecordKind Kind, long Version, DateTimeOffset First, DateTimeOffset Last);
}
