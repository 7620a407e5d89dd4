using Swardloop.Storage;
using Swardloop.Storage.Sqlite;

namespace Swardloop.Server.Serving;

/// <summary>Keeps other users of the machine out of a data folder. A folder that is the workshop's own is shut; one that holds other things too, or
/// belongs to somebody else, keeps its rights, and only the workshop's files in it are shut.</summary>
internal static class FolderRights
{
    private const UnixFileMode Others = UnixFileMode.GroupRead | UnixFileMode.GroupWrite | UnixFileMode.GroupExecute
        | UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    /// <summary>Makes the folder where there is none; shut from the first moment.</summary>
    public static void Make(string folder) => Durable.MakeFolder(folder);

    /// <summary>Shuts folder and files.</summary>
    public static void Close(string folder)
    {
        Make(folder);
        if (OperatingSystem.IsWindows())
        {
            return; // a user's folder for program data is shut there by itself
        }

        string database = Path.Combine(folder, SqliteEngine.FileName);
        string[] files = [database, database + "-wal", database + "-shm"];
        bool isShared = File.GetUnixFileMode(folder).HasFlag(UnixFileMode.StickyBit);
        bool isOurs = !isShared && (File.Exists(database) || !Directory.EnumerateFileSystemEntries(folder).Any(entry => !IsOfOurs(Path.GetFileName(entry))));
        if (isOurs)
        {
            Shut(folder, Durable.OwnFolder);
        }

        foreach (string file in files.Where(File.Exists))
        {
            Shut(file, Durable.OwnFile);
        }
    }

    // The lock of the server that starts, the demo's own folder, and what a start that was cut off has left.
    private static bool IsOfOurs(string name) => name is "server.lock" or "demo" || name.StartsWith(SqliteEngine.FileName, StringComparison.Ordinal);

    [System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
    private static void Shut(string path, UnixFileMode mode)
    {
        if ((File.GetUnixFileMode(path) & Others) == 0)
        {
            return;
        }

        try
        {
            File.SetUnixFileMode(path, mode);
        }
        catch (UnauthorizedAccessException)
        {
            // Somebody else's, who gave it to this user with these rights.
        }
    }
}
