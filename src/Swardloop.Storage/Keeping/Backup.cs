using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>A whole workshop in one ZIP file: manifest, journal, accounts, photos. It is made while people work, holds one moment, and can be
/// restored into any database that a workshop can be kept in, since records and lists are made again from the journal.</summary>
public static class Backup
{
    private const string ManifestName = "manifest.json", JournalName = "journal.jsonl", AccountsName = "accounts.jsonl", Photos = "photos/", SmallPhotos = "photos-small/";

    /// <summary>Writes a backup.</summary>
    /// <param name="engine">The database.</param>
    /// <param name="database">The workshop; nothing else may be done with it meanwhile.</param>
    /// <param name="file">Takes the ZIP; must be seekable.</param>
    /// <param name="now">When it is made.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static async Task<BackupManifest> WriteAsync(
        IDatabaseEngine engine, WorkshopDatabase database, Stream file, DateTimeOffset now, CancellationToken cancellation)
    {
        await using IDbContextTransaction moment = await engine.SnapshotAsync(database, cancellation);
        WorkshopMark mark = await database.Mark.AsNoTracking().SingleAsync(cancellation);
        List<Account> accounts = await database.Users.AsNoTracking().OrderBy(account => account.Id).ToListAsync(cancellation);
        ILookup<Guid, KeptPasskey> passkeys = (await database.UserPasskeys.AsNoTracking().ToListAsync(cancellation))
            .OrderBy(passkey => passkey.Data.CreatedAt).ToLookup(passkey => passkey.UserId, passkey => new KeptPasskey(passkey.CredentialId, passkey.Data));
        List<Guid> photos = await database.Photos.Select(photo => photo.Photo).ToListAsync(cancellation);
        BackupManifest manifest = new(
            BackupManifest.CurrentFormat, mark.Workshop, mark.IsDemo, now, mark.LastVersion, accounts.Count, photos.Count,
            await RecordsDigest.OfAsync(database, cancellation));

        using ZipArchive zip = new(file, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
        Put(zip, ManifestName, stream => JsonSerializer.Serialize(stream, manifest, KeepingJson.Default.BackupManifest));
        await using (Stream stream = zip.CreateEntry(JournalName).Open())
        {
            await foreach (JournalEntry entry in database.Journal.AsNoTracking().OrderBy(entry => entry.Version).AsAsyncEnumerable().WithCancellation(cancellation))
            {
                Change change = JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!;
                JsonSerializer.Serialize(stream, new KeptEntry(entry.Version, entry.By, entry.TakenAt, change), KeepingJson.Default.KeptEntry);
                stream.WriteByte((byte)'\n');
            }
        }

        Put(zip, AccountsName, stream =>
        {
            foreach (Account account in accounts)
            {
                JsonSerializer.Serialize(
                    stream,
                    new KeptAccount(
                        account.Id, account.DisplayName, account.Email ?? "", account.Role, account.MustChangePassword, account.LockoutEnd, account.PasswordHash,
                        [.. passkeys[account.Id]]),
                    KeepingJson.Default.KeptAccount);
                stream.WriteByte((byte)'\n');
            }
        });
        foreach (Guid id in photos)
        {
            StoredPhoto photo = await database.Photos.AsNoTracking().SingleAsync(photo => photo.Photo == id, cancellation);
            Put(zip, $"{Photos}{id}.jpg", stream => stream.Write(photo.Bytes), CompressionLevel.NoCompression);
            Put(zip, $"{SmallPhotos}{id}.jpg", stream => stream.Write(photo.Small), CompressionLevel.NoCompression);
        }

        return manifest;
    }

    /// <summary>Restores a backup into an empty database, whose tables are there, and compares what came out with what went in.</summary>
    /// <exception cref="InvalidDataException">It is no backup, a damaged one, or one of another format; or the database is not empty. Nothing is written.</exception>
    public static async Task<BackupManifest> RestoreAsync(WorkshopDatabase database, Stream file, CancellationToken cancellation)
    {
        if (await database.Mark.AnyAsync(cancellation) || await database.Users.AnyAsync(cancellation))
        {
            throw new InvalidDataException("there is a workshop already; a backup is restored into an empty place");
        }

        using ZipArchive zip = new(file, ZipArchiveMode.Read, leaveOpen: true, Encoding.UTF8);
        BackupManifest manifest = await ManifestAsync(zip, cancellation);
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        database.Mark.Add(new() { Workshop = manifest.Workshop, IsDemo = manifest.IsDemo, LastVersion = manifest.LastVersion });
        await database.SaveChangesAsync(cancellation);

        Dictionary<Guid, (RecordState State, DateTimeOffset First, DateTimeOffset Last)> records = [];
        await foreach (KeptEntry kept in LinesAsync(zip, JournalName, KeepingJson.Default.KeptEntry, cancellation))
        {
            RecordState before = records.TryGetValue(kept.Change.Record, out var known) ? known.State : RecordState.New(kept.Change.Record, kept.Change.Kind);
            records[kept.Change.Record] = (before.With(kept.Change, kept.By, kept.Version), known.State is null ? kept.TakenAt : known.First, kept.TakenAt);
            database.Journal.Add(new()
            {
                Version = kept.Version,
                Change = kept.Change.Id,
                Record = kept.Change.Record,
                Kind = kept.Change.Kind,
                By = kept.By,
                TakenAt = kept.TakenAt,
                Json = JsonSerializer.Serialize(kept.Change, WorkshopJson.Default.Change),
            });
            await SaveAsync(database, cancellation);
        }

        await RecordsAsync(database, records, cancellation);
        await foreach (KeptAccount kept in LinesAsync(zip, AccountsName, KeepingJson.Default.KeptAccount, cancellation))
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
                SecurityStamp = Guid.NewGuid().ToString("N"),
            });
            database.UserPasskeys.AddRange((kept.Passkeys ?? []).Select(passkey =>
                new IdentityUserPasskey<Guid> { UserId = kept.Id, CredentialId = passkey.CredentialId, Data = passkey.Data }));
        }

        foreach (ZipArchiveEntry entry in zip.Entries.Where(entry => entry.FullName.StartsWith(Photos, StringComparison.Ordinal)))
        {
            ZipArchiveEntry small = zip.GetEntry($"{SmallPhotos}{entry.Name}") ?? throw new InvalidDataException($"{entry.Name}: its small picture is missing");
            database.Photos.Add(new()
            {
                Photo = Guid.Parse(Path.GetFileNameWithoutExtension(entry.Name)),
                MediaType = "image/jpeg",
                Bytes = await BytesAsync(entry, cancellation),
                Small = await BytesAsync(small, cancellation),
            });
            await SaveAsync(database, cancellation);
        }

        await database.SaveChangesAsync(cancellation);
        await CompareAsync(database, manifest, cancellation);
        await transaction.CommitAsync(cancellation);
        return manifest;
    }

    private static async Task RecordsAsync(
        WorkshopDatabase database, Dictionary<Guid, (RecordState State, DateTimeOffset First, DateTimeOffset Last)> records, CancellationToken cancellation)
    {
        // What others refer to comes first; within a kind, the order in which they last changed.
        foreach ((RecordState state, DateTimeOffset first, DateTimeOffset last) in records.Values.OrderBy(record => record.State.Kind).ThenBy(record => record.State.Version))
        {
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
            await new Lines(database).UpdateAsync(stored, state, state.Kind == RecordKind.Case ? first : last, cancellation);
            await SaveAsync(database, cancellation);
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
    }

    private static async Task<BackupManifest> ManifestAsync(ZipArchive zip, CancellationToken cancellation)
    {
        try
        {
            ZipArchiveEntry entry = zip.GetEntry(ManifestName) ?? throw new InvalidDataException("is no backup of a workshop");
            await using Stream stream = entry.Open();
            BackupManifest? manifest = await JsonSerializer.DeserializeAsync(stream, KeepingJson.Default.BackupManifest, cancellation);
            return manifest?.Format == BackupManifest.CurrentFormat
                ? manifest
                : throw new InvalidDataException($"is a backup of another format, {manifest?.Format ?? "none"}; this program reads {BackupManifest.CurrentFormat}");
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException("its manifest is damaged", fault);
        }
    }

    private static async IAsyncEnumerable<T> LinesAsync<T>(
        ZipArchive zip, string name, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> type,
        [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation)
        where T : class
    {
        ZipArchiveEntry entry = zip.GetEntry(name) ?? throw new InvalidDataException($"{name} is missing in it");
        using StreamReader reader = new(entry.Open(), Encoding.UTF8);
        while (await reader.ReadLineAsync(cancellation) is { } line)
        {
            T? read;
            try
            {
                read = JsonSerializer.Deserialize(line, type);
            }
            catch (JsonException fault)
            {
                throw new InvalidDataException($"{name} is damaged", fault);
            }

            yield return read ?? throw new InvalidDataException($"{name} is damaged");
        }
    }

    private static async Task SaveAsync(WorkshopDatabase database, CancellationToken cancellation)
    {
        await database.SaveChangesAsync(cancellation);
        database.ChangeTracker.Clear();
    }

    private static async Task<byte[]> BytesAsync(ZipArchiveEntry entry, CancellationToken cancellation)
    {
        await using Stream stream = entry.Open();
        using MemoryStream bytes = new();
        await stream.CopyToAsync(bytes, cancellation);
        return bytes.ToArray();
    }

    private static void Put(ZipArchive zip, string name, Action<Stream> write, CompressionLevel level = CompressionLevel.Optimal)
    {
        using Stream stream = zip.CreateEntry(name, level).Open();
        write(stream);
    }
}
