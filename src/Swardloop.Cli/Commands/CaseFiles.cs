using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Cli.Commands;

/// <summary>Case files on this machine: their yards are found beside them.</summary>
internal static class CaseFiles
{
    /// <summary>Reads a case and the yard it names.</summary>
    public static Checked<CaseFile> Read(InputText input, Terminal terminal, YardShelf? shelf = null) =>
        CaseFile.Read(input.Bytes, input.Name, path => OpenYard(input.Directory, path, terminal), shelf);

    private static byte[]? OpenYard(string directory, string path, Terminal terminal)
    {
        try
        {
            return path.Contains('\0', StringComparison.Ordinal) ? null : InputText.Read(Path.Combine(directory, path), terminal).Bytes;
        }
        catch (WrongInputException)
        {
            return null; // The case file's problem, told with its place there.
        }
    }
}
