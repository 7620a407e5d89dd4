using Swardloop.Cli;
using Swardloop.Storage;

namespace Swardloop.Server.Serving;

/// <summary>Keeps a second server away from a data folder: its pages would not hear of the first one's changes.</summary>
internal sealed class FolderLock : IDisposable
{
    // EWOULDBLOCK as .NET reports it.
    private const int Locked = 11;

    private readonly FileStream _file;

    private FolderLock(FileStream file) => _file = file;

    /// <summary>Takes the folder.</summary>
    /// <exception cref="WrongInputException">Another server has it, or it cannot be written to.</exception>
    public static FolderLock Take(string folder)
    {
        try
        {
            FolderRights.Make(folder);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new WrongInputException(folder, "", $"the data folder cannot be made: {fault.Message.TrimEnd('.')}", "a folder that you may write to, with room");
        }

        try
        {
            return new(Durable.NewFile(Path.Combine(folder, "server.lock"), FileMode.OpenOrCreate, FileOptions.DeleteOnClose));
        }
        catch (UnauthorizedAccessException)
        {
            throw new WrongInputException(folder, "", "the data folder may only be read", "a folder that you may write to, with room");
        }
        catch (IOException fault)
        {
            throw fault.HResult == Locked
                ? new WrongInputException(folder, "", "another server has this data folder open", "a folder of its own for each server")
                : new WrongInputException(folder, "", $"the data folder cannot be used: {fault.Message.TrimEnd('.')}", "a folder that you may write to, with room");
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _file.Dispose();
}
