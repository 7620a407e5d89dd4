using System.Buffers;
using System.IO.Compression;
using System.IO.Pipelines;
using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace Swardloop.Storage.Keeping;

/// <summary>A backup opened for reading, with as much trust as a file from elsewhere deserves: nothing is unpacked beyond its bounds, and every
/// entry is compared with the digest that was written down when the backup was made.</summary>
internal sealed class BackupFile : IDisposable
{
    /// <summary>Longest line: more than the largest change that the server takes in.</summary>
    public const int MostLineBytes = 32 << 20;

    /// <summary>Largest photo (bytes): the larger of the two kept of each is far below.</summary>
    public const int MostPhotoBytes = 32 << 20;

    // Journals shrink to a tenth or a thirtieth; what shrinks to less than this share was made to fill a disk.
    private const int MostExpansion = 200;
    private const long AlwaysAllowedBytes = 16 << 20;

    private readonly ZipArchive _zip;
    private readonly Dictionary<string, ZipArchiveEntry> _entries = new(StringComparer.Ordinal);

    private BackupFile(ZipArchive zip) => _zip = zip;

    /// <summary>What is in it.</summary>
    public BackupManifest Manifest { get; private set; } = null!;

    /// <summary>Opens it.</summary>
    /// <exception cref="InvalidDataException">It is no backup, or one that this program does not read.</exception>
    public static async Task<BackupFile> OpenAsync(Stream file, CancellationToken cancellation)
    {
        BackupFile opened = new(new(file, ZipArchiveMode.Read, leaveOpen: true, Encoding.UTF8));
        try
        {
            foreach (ZipArchiveEntry entry in opened._zip.Entries)
            {
                if (!opened._entries.TryAdd(entry.FullName, entry))
                {
                    throw new InvalidDataException($"{entry.FullName} is twice in it");
                }
            }

            opened.Manifest = await opened.ReadManifestAsync(cancellation);
            return opened;
        }
        catch
        {
            opened.Dispose();
            throw;
        }
    }

    /// <summary>Names of the entries that start like this.</summary>
    public IEnumerable<string> NamesIn(string folder) => _entries.Keys.Where(name => name.StartsWith(folder, StringComparison.Ordinal));

    /// <summary>The objects of an entry that has one in each line, each with its line's number from 1.</summary>
    /// <exception cref="InvalidDataException">It is missing, damaged, or not what it was when the backup was made.</exception>
    public async IAsyncEnumerable<(int Line, T Value)> LinesAsync<T>(string name, JsonTypeInfo<T> type, [EnumeratorCancellation] CancellationToken cancellation)
        where T : class
    {
        ZipArchiveEntry entry = EntryOf(name);
        await using MeasuredStream stream = Open(entry, long.MaxValue);
        PipeReader reader = PipeReader.Create(stream, new StreamPipeReaderOptions(bufferSize: 1 << 16, leaveOpen: true));
        int number = 0;
        while (true)
        {
            ReadResult read = await reader.ReadAsync(cancellation);
            ReadOnlySequence<byte> rest = read.Buffer;
            while (rest.PositionOf((byte)'\n') is { } end)
            {
                yield return (++number, Parse(rest.Slice(0, end), name, number, type));
                rest = rest.Slice(rest.GetPosition(1, end));
            }

            if (rest.Length > MostLineBytes)
            {
                throw new InvalidDataException($"{name}: line {number + 1} has more than {MostLineBytes >> 20} MiB");
            }

            if (read.IsCompleted)
            {
                if (rest.Length > 0)
                {
                    yield return (++number, Parse(rest, name, number, type));
                }

                break;
            }

            reader.AdvanceTo(rest.Start, rest.End);
        }

        await reader.CompleteAsync();
        Compare(entry, stream);
    }

    /// <summary>An entry's bytes.</summary>
    /// <exception cref="InvalidDataException">It is missing, damaged, or not what it was when the backup was made.</exception>
    public async Task<byte[]> BytesAsync(string name, CancellationToken cancellation)
    {
        ZipArchiveEntry entry = EntryOf(name);
        await using MeasuredStream stream = Open(entry, MostPhotoBytes);
        using MemoryStream bytes = new();
        await stream.CopyToAsync(bytes, cancellation);
        Compare(entry, stream);
        return bytes.ToArray();
    }

    /// <inheritdoc/>
    public void Dispose() => _zip.Dispose();

    private static T Parse<T>(ReadOnlySequence<byte> line, string name, int number, JsonTypeInfo<T> type)
        where T : class
    {
        try
        {
            Utf8JsonReader reader = new(line);
            T? read = JsonSerializer.Deserialize(ref reader, type);
            return read is not null && !reader.Read() ? read : throw new InvalidDataException($"{name}: line {number} is damaged");
        }
        catch (Exception fault) when (fault is JsonException or InvalidOperationException or FormatException)
        {
            throw new InvalidDataException($"{name}: line {number} is damaged", fault);
        }
    }

    private static MeasuredStream Open(ZipArchiveEntry entry, long most)
    {
        if (entry.Length > AlwaysAllowedBytes && entry.Length / MostExpansion > entry.CompressedLength)
        {
            throw new InvalidDataException($"{entry.FullName} unpacks to more than {MostExpansion} times its size, as nothing in a backup does");
        }

        return new(entry.Open(), Math.Min(entry.Length, most));
    }

    private void Compare(ZipArchiveEntry entry, MeasuredStream read)
    {
        // Backups of the first format have no digests; the ZIP's own sums find what breaks by itself.
        bool isSame = Manifest.Hashes is { } hashes
            ? hashes.TryGetValue(entry.FullName, out string? expected) && expected == read.Sha256
            : entry.Crc32 == read.Crc32;
        if (!isSame)
        {
            throw new InvalidDataException($"{entry.FullName} is not what it was when the backup was made");
        }
    }

    private ZipArchiveEntry EntryOf(string name) => _entries.GetValueOrDefault(name) ?? throw new InvalidDataException($"{name} is missing in it");

    private async Task<BackupManifest> ReadManifestAsync(CancellationToken cancellation)
    {
        if (!_entries.TryGetValue(Backup.ManifestName, out ZipArchiveEntry? entry))
        {
            throw new InvalidDataException("is no backup of a workshop");
        }

        try
        {
            await using MeasuredStream stream = Open(entry, MostLineBytes);
            BackupManifest? manifest = await JsonSerializer.DeserializeAsync(stream, KeepingJson.Default.BackupManifest, cancellation);
            return manifest is { Format: BackupManifest.CurrentFormat, Hashes: not null } or { Format: BackupManifest.FirstFormat }
                ? manifest
                : throw new InvalidDataException($"is a backup of another format, {manifest?.Format ?? "none"}; this program reads {BackupManifest.FirstFormat} and {BackupManifest.CurrentFormat}");
        }
        catch (JsonException fault)
        {
            throw new InvalidDataException("its manifest is damaged", fault);
        }
    }
}
