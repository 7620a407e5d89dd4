namespace Swardloop.Cli;

/// <summary>A file that an option names, to be written.</summary>
internal static class OutputFile
{
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
