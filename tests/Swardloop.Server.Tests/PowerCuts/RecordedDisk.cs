using System.Buffers.Binary;
using System.Text;

namespace Swardloop.Server.Tests.PowerCuts;

/// <summary>What a disk may hold of a folder when the power goes: worked out from what a program did there, as recorder.c wrote it down. Certain is only what was synced:
/// bytes by a sync of their file, names by a sync of their folder. Of the rest anything may be there, down to single sectors of a write.</summary>
/// <remarks>Names within one folder come to the disk in the order in which they were made, as in a journalling file system. A write never harms bytes beside it
/// (SQLite's "powersafe overwrite", sqlite.org/psow.html).</remarks>
internal sealed class RecordedDisk
{
    private const int SectorBytes = 512, HeadBytes = 32;

    private readonly string _folder;
    private readonly List<Line> _lines;
    private readonly Dictionary<string, byte[]> _before;

    private RecordedDisk(string folder, Dictionary<string, byte[]> before, List<Line> lines) => (_folder, _before, _lines) = (folder, before, lines);

    /// <summary>Number of calls written down.</summary>
    public int Calls => _lines.Count;

    /// <summary>Files as they are now, before a program is started on them: all of it is on the disk.</summary>
    public static Dictionary<string, byte[]> FilesOf(string folder) =>
        Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).ToDictionary(path => path, File.ReadAllBytes, StringComparer.Ordinal);

    /// <summary>Reads a record, to its last whole line.</summary>
    /// <param name="folder">The folder that was watched.</param>
    /// <param name="before">What lay there before.</param>
    /// <param name="record">The record.</param>
    /// <exception cref="InvalidDataException">The program did something that cannot be followed.</exception>
    public static RecordedDisk Read(string folder, Dictionary<string, byte[]> before, string record)
    {
        byte[] bytes = File.ReadAllBytes(record);
        List<Line> lines = [];
        for (int at = 0; at + HeadBytes <= bytes.Length;)
        {
            long length = BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(at + 24));
            if (at + HeadBytes + length > bytes.Length)
            {
                break;
            }

            Line line = new((char)bytes[at], BinaryPrimitives.ReadUInt64LittleEndian(bytes.AsSpan(at + 8)), BinaryPrimitives.ReadInt64LittleEndian(bytes.AsSpan(at + 16)),
                bytes.AsMemory(at + HeadBytes, (int)length), at + HeadBytes + length);
            // SQLite shares an index of its log through memory; it is made anew from the log by whoever comes first.
            if (line.What == 'X' && !line.Text.EndsWith("-shm", StringComparison.Ordinal))
            {
                throw new InvalidDataException($"cannot be followed: {line.Text}");
            }

            lines.Add(line);
            at = (int)line.End;
        }

        return new(folder, before, lines);
    }

    /// <summary>How many calls had been made when the record had that length.</summary>
    public int CallsAt(long recordBytes) => _lines.Count(line => line.End <= recordBytes);

    /// <summary>Writes what the disk may hold after that many calls into a new folder.</summary>
    /// <param name="calls">Calls made when the power went.</param>
    /// <param name="random">Chooses what of the unsynced is there; null for nothing of it.</param>
    /// <param name="into">The new folder.</param>
    public void Cut(int calls, Random? random, string into)
    {
        Names live = new(_folder), onDisk = new(_folder);
        foreach (string parent in _before.Keys.SelectMany(path => Parents(path)))
        {
            live.Folders.Add(parent);
            onDisk.Folders.Add(parent);
        }

        foreach ((string path, byte[] bytes) in _before)
        {
            live.Files[path] = onDisk.Files[path] = new(bytes);
        }

        Dictionary<ulong, Content> byInode = [];
        Dictionary<string, List<Action<Names>>> waiting = new(StringComparer.Ordinal);
        foreach (Line line in _lines.Take(calls))
        {
            string[] paths = line.What is 'C' or 'O' or 'D' or 'F' or 'R' or 'L' or 'U' or 'Z' ? line.Text.Split('\0') : [];
            switch (line.What)
            {
                case 'C':
                    Content made = byInode[line.Inode] = new([]);
                    Name(paths[0], names => names.Files[paths[0]] = made);
                    break;
                case 'O':
                    byInode[line.Inode] = live.Files[paths[0]];
                    break;
                case 'D':
                    Name(paths[0], names => names.Folders.Add(paths[0]));
                    break;
                case 'R':
                    Content moved = live.Files[paths[0]];
                    Name(paths[1], names =>
                    {
                        names.Files.Remove(paths[0]);
                        names.Files[paths[1]] = moved;
                    });
                    break;
                case 'L':
                    Content linked = live.Files[paths[0]];
                    Name(paths[1], names => names.Files[paths[1]] = linked);
                    break;
                case 'U':
                    Name(paths[0], names => names.Files.Remove(paths[0]));
                    break;
                case 'Z':
                    Name(paths[0], names => names.Folders.Remove(paths[0]));
                    break;
                case 'W':
                    byInode[line.Inode].Waiting.Add((line.Offset, line.Bytes));
                    break;
                case 'T':
                    byInode[line.Inode].Waiting.Add((line.Offset, null));
                    break;
                case 'S':
                    byInode[line.Inode].Sync();
                    break;
                case 'F' when waiting.Remove(paths[0], out List<Action<Names>>? synced):
                    synced.ForEach(one => one(onDisk));
                    break;
                default:
                    break;
            }
        }

        foreach (List<Action<Names>> names in waiting.Values)
        {
            names.Take(random?.Next(names.Count + 1) ?? 0).ToList().ForEach(one => one(onDisk));
        }

        foreach (string made in onDisk.Folders.Where(onDisk.IsReachable))
        {
            Directory.CreateDirectory(into + made[_folder.Length..]);
        }

        foreach ((string path, Content content) in onDisk.Files.Where(file => onDisk.IsReachable(Path.GetDirectoryName(file.Key)!)))
        {
            File.WriteAllBytes(into + path[_folder.Length..], content.AfterCut(random));
        }

        void Name(string path, Action<Names> change)
        {
            change(live);
            string parent = Path.GetDirectoryName(path)!;
            (waiting.TryGetValue(parent, out List<Action<Names>>? there) ? there : waiting[parent] = []).Add(change);
        }
    }

    private IEnumerable<string> Parents(string path)
    {
        for (string parent = Path.GetDirectoryName(path)!; parent.Length > _folder.Length; parent = Path.GetDirectoryName(parent)!)
        {
            yield return parent;
        }
    }

    /// <summary>One call.</summary>
    private sealed record Line(char What, ulong Inode, long Offset, ReadOnlyMemory<byte> Bytes, long End)
    {
        public string Text => Encoding.UTF8.GetString(Bytes.Span);
    }

    /// <summary>Names in the folder and below.</summary>
    private sealed class Names(string root)
    {
        public Dictionary<string, Content> Files { get; } = new(StringComparer.Ordinal);

        public HashSet<string> Folders { get; } = new(StringComparer.Ordinal);

        public bool IsReachable(string folder) => folder == root || (Folders.Contains(folder) && IsReachable(Path.GetDirectoryName(folder)!));
    }

    /// <summary>A file's bytes: those on the disk, and what was written since.</summary>
    private sealed class Content(byte[] bytes)
    {
        private byte[] _bytes = bytes;

        /// <summary>Writes with their offsets; a null is a cut or growth to that size.</summary>
        public List<(long Offset, ReadOnlyMemory<byte>? Bytes)> Waiting { get; } = [];

        public void Sync()
        {
            MemoryStream file = Open();
            Waiting.ForEach(one => Put(file, one.Offset, one.Bytes));
            _bytes = file.ToArray();
            Waiting.Clear();
        }

        public byte[] AfterCut(Random? random)
        {
            MemoryStream file = Open();
            switch (random?.Next(4) ?? 0)
            {
                case 0:
                    break; // nothing of it
                case 1:
                    Waiting.ForEach(one => Put(file, one.Offset, one.Bytes)); // all of it
                    break;
                case 2:
                    int whole = random!.Next(Waiting.Count + 1); // what came first, the last of it torn
                    Waiting.Take(whole).ToList().ForEach(one => Put(file, one.Offset, one.Bytes));
                    if (whole < Waiting.Count && Waiting[whole].Bytes is { } torn)
                    {
                        Put(file, Waiting[whole].Offset, torn[..Math.Min(torn.Length, SectorBytes * random.Next(1 + (torn.Length / SectorBytes)))]);
                    }

                    break;
                default:
                    foreach ((long offset, ReadOnlyMemory<byte>? bytes) in Waiting) // any sectors of it
                    {
                        if (bytes is not { } some)
                        {
                            if (random!.Next(2) == 0)
                            {
                                Put(file, offset, null);
                            }

                            continue;
                        }

                        for (int from = 0; from < some.Length;)
                        {
                            int to = (int)Math.Min(some.Length, from + SectorBytes - ((offset + from) % SectorBytes));
                            if (random!.Next(2) == 0)
                            {
                                Put(file, offset + from, some[from..to]);
                            }

                            from = to;
                        }
                    }

                    break;
            }

            return file.ToArray();
        }

        private MemoryStream Open()
        {
            MemoryStream file = new();
            file.Write(_bytes);
            return file;
        }

        private static void Put(MemoryStream file, long offset, ReadOnlyMemory<byte>? bytes)
        {
            if (bytes is not { } some)
            {
                file.SetLength(offset);
                return;
            }

            if (some.Length > 0)
            {
                file.Position = offset; // beyond the end, what lies between is zero
                file.Write(some.Span);
            }
        }
    }
}
