using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Yards;
using Swardloop.Server.Files;
using Swardloop.Storage;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Keeping;

/// <summary>Everything that a workshop knows, as files that other programs read: yards, cases, records as JSON, photos as JPEG. A record that
/// cannot be written as a file is left out and named in <c>report.json</c>; the others come out whatever it is.</summary>
internal static class OpenFiles
{
    /// <summary>A record that is not in the export, or not as a file of its own.</summary>
    /// <param name="Record">The record.</param>
    /// <param name="Kind">Its kind.</param>
    /// <param name="Reason">Why.</param>
    public sealed record LeftOut(Guid Record, RecordKind Kind, string Reason);

    /// <summary>Writes them into a ZIP.</summary>
    /// <returns>How many files, the report not counted, and what was left out.</returns>
    public static async Task<(int Files, IReadOnlyList<LeftOut> LeftOut)> WriteAsync(
        IDatabaseEngine engine, WorkshopDatabase database, Stream file, CancellationToken cancellation)
    {
        await using IDbContextTransaction moment = await engine.SnapshotAsync(database, cancellation);
        using ZipArchive zip = new(file, ZipArchiveMode.Create, leaveOpen: true, Encoding.UTF8);
        List<LeftOut> leftOut = [];
        int count = 1;
        await RecordsAsync(database, zip, leftOut, cancellation);
        List<StoredRecord> whole = await database.Records.AsNoTracking().Where(record => record.Kind == RecordKind.Yard || record.Kind == RecordKind.Case)
            .OrderBy(record => record.Kind == RecordKind.Case).ThenBy(record => record.Version).ToListAsync(cancellation);
        HashSet<Guid> damaged = [.. leftOut.Select(one => one.Record)];
        Dictionary<Guid, string> yardNames = [];
        foreach (StoredRecord record in whole.Where(record => !damaged.Contains(record.Id)))
        {
            if (await FileOfAsync(database, record, yardNames, leftOut, cancellation) is var (name, bytes))
            {
                Put(zip, name, bytes);
                count++;
            }
        }

        foreach (Guid id in await database.Photos.Select(photo => photo.Photo).ToListAsync(cancellation))
        {
            Put(zip, $"photos/{id}.jpg", await database.Photos.Where(photo => photo.Photo == id).Select(photo => photo.Bytes).SingleAsync(cancellation));
            count++;
        }

        Report(zip, count, leftOut);
        return (count, leftOut);
    }

    private static async Task RecordsAsync(WorkshopDatabase database, ZipArchive zip, List<LeftOut> leftOut, CancellationToken cancellation)
    {
        await using Stream stream = zip.CreateEntry("records.json").Open();
        await using Utf8JsonWriter json = new(stream);
        json.WriteStartArray();
        await foreach (StoredRecord record in database.Records.AsNoTracking().OrderBy(record => record.Version).AsAsyncEnumerable().WithCancellation(cancellation))
        {
            try
            {
                _ = Journal.StateOf(record); // what this program cannot read, no other one can
                json.WriteRawValue(record.Json);
            }
            catch (JsonException fault)
            {
                leftOut.Add(new(record.Id, record.Kind, $"its text is damaged: {fault.Message}"));
            }

            await json.FlushAsync(cancellation);
        }

        json.WriteEndArray();
    }

    private static async Task<(string Name, byte[] Bytes)?> FileOfAsync(
        WorkshopDatabase database, StoredRecord record, Dictionary<Guid, string> yardNames, List<LeftOut> leftOut, CancellationToken cancellation)
    {
        try
        {
            RecordState state = Journal.StateOf(record);
            if (record.Kind == RecordKind.Yard)
            {
                yardNames[record.Id] = NameOf(state);
                Checked<YardFile> yard = FileEndpoints.YardOf(state);
                if (!yard.IsGood)
                {
                    leftOut.Add(new(record.Id, record.Kind, $"given as it is, since this program cannot read it: {yard.Problems[0]}"));
                }

                return ($"yards/{yardNames[record.Id]}.yard.json", yard.IsGood ? yard.Value.ToUtf8() : Encoding.UTF8.GetBytes(state.Value("file")?.GetRawText() ?? "{}"));
            }

            Checked<CaseFile> file = await FileEndpoints.CaseOfAsync(database, record, cancellation);
            if (file.IsGood)
            {
                return ($"cases/{yardNames.GetValueOrDefault(record.Yard ?? Guid.Empty, "yard")}-{record.Id}.case.json", file.Value.ToUtf8());
            }

            leftOut.Add(new(record.Id, record.Kind, $"its records make no whole file: {file.Problems[0]}"));
        }
#pragma warning disable CA1031 // Whatever is wrong with one record must not keep the others from coming out.
        catch (Exception fault) when (fault is not OperationCanceledException && IsOfRecord(fault))
#pragma warning restore CA1031
        {
            leftOut.Add(new(record.Id, record.Kind, $"it cannot be written: {fault.Message}"));
        }

        return null;

        // What the database could not do is no fault of the record.
        static bool IsOfRecord(Exception fault) => fault is not (System.Data.Common.DbException or IOException);
    }

    private static void Report(ZipArchive zip, int files, List<LeftOut> leftOut)
    {
        using Stream stream = zip.CreateEntry("report.json").Open();
        using Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true });
        json.WriteStartObject();
        json.WriteNumber("files", files);
        json.WriteStartArray("leftOut");
        foreach (LeftOut one in leftOut)
        {
            json.WriteStartObject();
            json.WriteString("record", one.Record);
            json.WriteString("kind", WireName.Of(one.Kind));
            json.WriteString("reason", one.Reason);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
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
