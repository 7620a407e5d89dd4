using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Server.Files;
using Swardloop.Storage;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Keeping;

/// <summary>Everything that a workshop knows, as files that other programs read: yards, cases, records as JSON, photos as JPEG.</summary>
internal static class OpenFiles
{
    /// <summary>Writes them into a ZIP.</summary>
    /// <returns>How many files.</returns>
    public static async Task<int> WriteAsync(IDatabaseEngine engine, WorkshopDatabase database, Stream file, CancellationToken cancellation)
    {
        await using IDbContextTransaction moment = await engine.SnapshotAsync(database, cancellation);
        using ZipArchive zip = new(file, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
        int count = 0;
        await using (Stream stream = zip.CreateEntry("records.json").Open())
        await using (Utf8JsonWriter json = new(stream))
        {
            count++;
            json.WriteStartArray();
            await foreach (StoredRecord record in database.Records.AsNoTracking().OrderBy(record => record.Version).AsAsyncEnumerable().WithCancellation(cancellation))
            {
                json.WriteRawValue(record.Json, skipInputValidation: true);
                await json.FlushAsync(cancellation);
            }

            json.WriteEndArray();
        }

        List<StoredRecord> whole = await database.Records.AsNoTracking().Where(record => record.Kind == RecordKind.Yard || record.Kind == RecordKind.Case)
            .OrderBy(record => record.Version).ToListAsync(cancellation);
        Dictionary<Guid, string> yardNames = whole.Where(record => record.Kind == RecordKind.Yard).ToDictionary(record => record.Id, record => NameOf(Journal.StateOf(record)));
        foreach (StoredRecord record in whole)
        {
            RecordState state = Journal.StateOf(record);
            if (record.Kind == RecordKind.Yard)
            {
                // A file that cannot be read by this program is given as it is.
                byte[] bytes = FileEndpoints.YardOf(state) is { IsGood: true } yard ? yard.Value.ToUtf8() : Encoding.UTF8.GetBytes(state.Value("file")?.GetRawText() ?? "{}");
                Put(zip, $"yards/{yardNames[record.Id]}.yard.json", bytes);
                count++;
            }
            else if (await FileEndpoints.CaseOfAsync(database, record, cancellation) is { IsGood: true } read)
            {
                Put(zip, $"cases/{yardNames.GetValueOrDefault(record.Yard ?? Guid.Empty, "yard")}-{record.Id}.case.json", read.Value.ToUtf8());
                count++;
            }
        }

        foreach (Guid id in await database.Photos.Select(photo => photo.Photo).ToListAsync(cancellation))
        {
            Put(zip, $"photos/{id}.jpg", await database.Photos.Where(photo => photo.Photo == id).Select(photo => photo.Bytes).SingleAsync(cancellation));
            count++;
        }

        return count;
    }

    /// <summary>A name that every file system takes, told apart by the record's id.</summary>
    private static string NameOf(RecordState yard)
    {
        string name = string.Concat((yard.Text("name") ?? "").ToLowerInvariant().Select(c => char.IsAsciiLetterOrDigit(c) ? c : '-')).Trim('-');
        return $"{(name.Length > 40 ? name[..40] : name)}-{yard.Id}";
    }

    private static void Put(ZipArchive zip, string name, byte[] bytes)
    {
        using Stream stream = zip.CreateEntry(name).Open();
        stream.Write(bytes);
    }
}
