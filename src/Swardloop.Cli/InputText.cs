namespace Swardloop.Cli;

/// <summary>A file that was read, or standard input.</summary>
/// <param name="Name">As the person named it; <c>standard input</c> for <c>-</c>.</param>
/// <param name="Bytes">All of it.</param>
/// <param name="Directory">Where paths inside it start: the file's directory; the current one for standard input.</param>
internal sealed record InputText(string Name, byte[] Bytes, string Directory)
{
    /// <summary>Nothing larger is read (bytes): far above any real yard, far below what would hurt.</summary>
    public const int MostBytes = 64 << 20;

    /// <summary>Reads a path, or the terminal's input for <c>-</c>.</summary>
    /// <exception cref="WrongInputException">It is missing, a directory, not to be read, or too large.</exception>
    public static InputText Read(string path, Terminal terminal)
    {
        if (path == "-")
        {
            return new("standard input", ReadAll(terminal.Input, "standard input"), Environment.CurrentDirectory);
        }

        try
        {
            string full = Path.GetFullPath(path);
            if (System.IO.Directory.Exists(full))
            {
                throw new WrongInputException(path, "", "is a directory", "a file, or - for standard input");
            }

            using FileStream file = new(full, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            return new(path, ReadAll(file, path), Path.GetDirectoryName(full) ?? "/");
        }
        catch (Exception fault) when (fault is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new WrongInputException(path, "", "no such file", "a file that exists, or - for standard input");
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException or ArgumentException)
        {
            throw new WrongInputException(path, "", "cannot be read", "a file that you may read, or - for standard input");
        }
    }

    /// <summary>The bytes of a file that this one names.</summary>
    /// <param name="path">As it stands in this file: relative to its directory, or absolute.</param>
    /// <param name="terminal">What the program reads from.</param>
    /// <returns><see langword="null"/> when it cannot be read: a problem of this file, to be told with its place there.</returns>
    public byte[]? ReadBeside(string path, Terminal terminal)
    {
        try
        {
            return path.Contains('\0', StringComparison.Ordinal) ? null : Read(Path.Combine(Directory, path), terminal).Bytes;
        }
        catch (WrongInputException)
        {
            return null;
        }
    }

    private static byte[] ReadAll(Stream stream, string name)
    {
        // The length may be unknown (a pipe) or a lie (a device): read until the end or the limit.
        using MemoryStream all = new(stream.CanSeek ? (int)Math.Min(stream.Length, MostBytes) : 0);
        byte[] part = new byte[1 << 16];
        for (int count; (count = stream.Read(part)) > 0;)
        {
            all.Write(part, 0, count);
            if (all.Length > MostBytes)
            {
                throw new WrongInputException(name, "", $"is larger than {MostBytes >> 20} MiB", $"up to {MostBytes >> 20} MiB");
            }
        }

        return all.ToArray();
    }
}
