namespace Swardloop.Cli;

/// <summary>A file that an option names, to be written.</summary>
internal static class OutputFile
{
    /// <summary>Refuses to write over a file that the same call reads.</summary>
    /// <param name="call">The call.</param>
    /// <param name="option">What names the file to be written.</param>
    /// <param name="path">That file.</param>
    /// <param name="read">What is read; "-" is no file, null nothing.</param>
    /// <exception cref="WrongInputException">It is the same file.</exception>
    public static void RefuseRead(Invocation call, string option, string path, string? read)
    {
        if (read is not (null or "-") && IsSame(path, read))
        {
            throw call.Wrong(option, "is the file itself that is read, which would be overwritten", "another file");
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

    private static string Real(string path) => File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? Path.GetFullPath(path);

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
