namespace Swardloop.Cli;

/// <summary>A file that an option names, to be written.</summary>
internal static class OutputFile
{
    /// <summary>Refuses to write over a file that the same call reads; asked before anything is computed or written.</summary>
    /// <param name="call">The call.</param>
    /// <param name="options">What names files to be written, where it is given.</param>
    /// <param name="read">What is read; "-" is no file, null nothing.</param>
    /// <exception cref="WrongInputException">One of them is a file that is read.</exception>
    public static void RefuseRead(Invocation call, IEnumerable<string> options, params string?[] read)
    {
        foreach (string option in options)
        {
            if (call.Value(option) is { } path && Array.Exists(read, file => file is not (null or "-") && IsSame(path, file)))
            {
                throw call.Wrong(option, "is the file itself that is read, which would be overwritten", "another file");
            }
        }
    }

    // Links followed.
    private static bool IsSame(string path, string other)
    {
        try
        {
            return string.Equals(Real(path), Real(other), OperatingSystem.IsWindows() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException or ArgumentException or NotSupportedException)
        {
            return false; // what cannot be looked up is refused when it is read or written
        }
    }

    // The whole path first: a relative link named without a folder is not followed. Folders may be links as well.
    private static string Real(string path)
    {
        string full = Path.GetFullPath(path);
        full = File.ResolveLinkTarget(full, returnFinalTarget: true)?.FullName ?? full;
        return Path.GetDirectoryName(full) is { } folder ? Path.Join(Real(folder), Path.GetFileName(full)) : full;
    }

    /// <summary>Writes it, over what was there.</summary>
    /// <param name="path">Where.</param>
    /// <param name="bytes">All of it.</param>
    /// <exception cref="WrongInputException">It cannot be written there.</exception>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        try
        {
            File.WriteAllBytes(path, bytes);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or IOException or ArgumentException or NotSupportedException)
        {
            throw new WrongInputException(path, "", "cannot be written", "a file in a folder that exists and that you may write to");
        }
    }
}
