using System.Globalization;
using System.IO.Compression;
using System.Text.Json;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <summary>What a device holds and the server has not confirmed, as a file that any device takes in.</summary>
/// <param name="Batch">The changes, in the order in which they were made.</param>
/// <param name="Photos">The photos whose bytes wait.</param>
/// <remarks>Without photos the file is the batch's JSON as the web API takes it; with photos a ZIP of it and of them:
/// <c>unsent.json</c>, <c>photos/ID.jpg</c> and, for lists, <c>small/ID.jpg</c>.</remarks>
public sealed record UnsentFile(ChangeBatch Batch, IReadOnlyList<UnsentPhoto> Photos)
{
    private const string ChangesName = "unsent.json", LargeFolder = "photos/", SmallFolder = "small/";
    private const int MostEntryBytes = 64 << 20;

    /// <summary>A name for it.</summary>
    public string Name => Photos.Count > 0 ? "swardloop-unsent.zip" : "swardloop-unsent.json";

    /// <summary>Its media type.</summary>
    public string MediaType => Photos.Count > 0 ? "application/zip" : "application/json";

    /// <summary>Reads one.</summary>
    /// <exception cref="JsonException">It is no such file.</exception>
    /// <exception cref="InvalidDataException">It is a damaged ZIP, or one of something else.</exception>
    public static UnsentFile Read(byte[] file)
    {
        if (!file.AsSpan().StartsWith("PK"u8))
        {
            return new(ReadBatch(file), []);
        }

        using ZipArchive zip = new(new MemoryStream(file));
        ZipArchiveEntry changes = zip.GetEntry(ChangesName) ?? throw new InvalidDataException($"{ChangesName} is missing");
        return new(ReadBatch(Bytes(changes)),
        [
            .. from entry in zip.Entries
               where entry.FullName.StartsWith(LargeFolder, StringComparison.Ordinal) && Guid.TryParse(Path.GetFileNameWithoutExtension(entry.Name), out _)
               let id = Guid.Parse(Path.GetFileNameWithoutExtension(entry.Name))
               let small = zip.GetEntry(PhotoName(SmallFolder, id))
               select new UnsentPhoto(id, Bytes(entry), small is null ? null : Bytes(small)),
        ]);
    }

    /// <summary>The file.</summary>
    public byte[] ToBytes()
    {
        byte[] changes = JsonSerializer.SerializeToUtf8Bytes(Batch, WorkshopJson.Default.ChangeBatch);
        if (Photos.Count == 0)
        {
            return changes;
        }

        using MemoryStream file = new();
        using (ZipArchive zip = new(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, ChangesName, changes, CompressionLevel.Optimal);
            foreach (UnsentPhoto photo in Photos)
            {
                Add(zip, PhotoName(LargeFolder, photo.Id), photo.Large, CompressionLevel.NoCompression);
                if (photo.Small is { } small)
                {
                    Add(zip, PhotoName(SmallFolder, photo.Id), small, CompressionLevel.NoCompression);
                }
            }
        }

        return file.ToArray();
    }

    private static ChangeBatch ReadBatch(byte[] json) =>
        JsonSerializer.Deserialize(json, WorkshopJson.Default.ChangeBatch) is { Changes: not null } batch ? batch : throw new JsonException("There are no changes in it.");

    private static string PhotoName(string folder, Guid id) => string.Create(CultureInfo.InvariantCulture, $"{folder}{id}.jpg");

    private static void Add(ZipArchive zip, string name, byte[] bytes, CompressionLevel level)
    {
        using Stream entry = zip.CreateEntry(name, level).Open();
        entry.Write(bytes);
    }

    private static byte[] Bytes(ZipArchiveEntry entry)
    {
        if (entry.Length > MostEntryBytes)
        {
            throw new InvalidDataException($"{entry.FullName} is larger than anything that was saved");
        }

        byte[] bytes = new byte[entry.Length];
        using Stream stream = entry.Open();
        stream.ReadExactly(bytes);
        return bytes;
    }
}
