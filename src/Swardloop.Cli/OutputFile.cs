namespace Swardloop.Cli;

/// <summary>A file that an option names, to be written.</summary>
internal static class OutputFile
{
    /// <summary>Whether two names lead to one file, links followed.</summary>
    public static bool IsSame(string path, string other)
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
