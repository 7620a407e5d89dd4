using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Records;

namespace Swardloop.Storage.Keeping;

/// <summary>A whole workshop in one ZIP file: journal, accounts, photos, and a manifest with the digests of them all. It is made while people work, holds one moment, and can be
/// restored into any database that a workshop can be kept in, since records and lists are made again from the journal.</summary>
public static class Backup
{
    internal const string ManifestName = "manifest.json", JournalName = "journal.jsonl", AccountsName = "accounts.jsonl", Photos = "photos/", SmallPhotos = "photos-small/";

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
        ILookup<Guid, PracticeRun> practice = (await database.Practice.AsNoTracking().OrderBy(run => run.Id).ToListAsync(cancellation)).ToLookup(run => run.Account);
        List<Guid> photos = await database.Photos.Select(photo => photo.Photo).ToListAsync(cancellation);
        Dictionary<string, string> hashes = new(StringComparer.Ordinal);
        using ZipArchive zip = new(file, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
        await PutAsync(zip, hashes, JournalName, async stream =>
        {
            await foreach (JournalEntry entry in database.Journal.AsNoTracking().OrderBy(entry => entry.Version).AsAsyncEnumerable().WithCancellation(cancellation))
            {
                Change change = JsonSerializer.Deserialize(entry.Json, WorkshopJson.Default.Change)!;
                JsonSerializer.Serialize(stream, new KeptEntry(entry.Version, entry.By, entry.TakenAt, change), KeepingJson.Default.KeptEntry);
                stream.WriteByte((byte)'\n');
            }
        });
        await PutAsync(zip, hashes, AccountsName, stream =>
        {
            foreach (Account account in accounts)
            {
                JsonSerializer.Serialize(
                    stream,
                    new KeptAccount(
                        account.Id, account.DisplayName, account.Email ?? "", account.Role, account.MustChangePassword, account.LockoutEnd, account.PasswordHash,
                        [.. passkeys[account.Id]], account.PasswordUntil, [.. practice[account.Id]]),
                    KeepingJson.Default.KeptAccount);
                stream.WriteByte((byte)'\n');
            }

            return Task.CompletedTask;
        });
        foreach (Guid id in photos)
        {
            StoredPhoto photo = await database.Photos.AsNoTracking().SingleAsync(photo => photo.Photo == id, cancellation);
            await PutAsync(zip, hashes, $"{Photos}{id}.jpg", stream => stream.WriteAsync(photo.Bytes, cancellation).AsTask(), CompressionLevel.NoCompression);
            await PutAsync(zip, hashes, $"{SmallPhotos}{id}.jpg", stream => stream.WriteAsync(photo.Small, cancellation).AsTask(), CompressionLevel.NoCompression);
        }

        // Last, since it holds the digests of all that stands before it.
        BackupManifest manifest = new(
            BackupManifest.CurrentFormat, mark.Workshop, mark.IsDemo, now, mark.LastVersion, accounts.Count, photos.Count,
            await RecordsDigest.OfAsync(database, cancellation), hashes);
        await using (Stream stream = zip.CreateEntry(ManifestName).Open())
        {
            await JsonSerializer.SerializeAsync(stream, manifest, KeepingJson.Default.BackupManifest, cancellation);
        }

        return manifest;
    }

    private static async Task PutAsync(
        ZipArchive zip, Dictionary<string, string> hashes, string name, Func<Stream, Task> write, CompressionLevel level = CompressionLevel.Optimal)
    {
        using SHA256 hash = SHA256.Create();
        await using (CryptoStream stream = new(zip.CreateEntry(name, level).Open(), hash, CryptoStreamMode.Write))
        {
            await write(stream);
        }

        hashes[name] = Convert.ToHexStringLower(hash.Hash!);
    }
}
