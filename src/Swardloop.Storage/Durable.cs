using System.Runtime.InteropServices;

namespace Swardloop.Storage;

/// <summary>Files that are there as a whole or not at all, whatever moment the power goes.</summary>
public static partial class Durable
{
    /// <summary>Rights of a file that only its owner may read: on systems that know them.</summary>
    public const UnixFileMode OwnFile = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>Rights of a folder that only its owner may enter.</summary>
    public const UnixFileMode OwnFolder = OwnFile | UnixFileMode.UserExecute;

    /// <summary>Makes a folder and those above it that are missing; only the owner may enter what is made.</summary>
    /// <returns>Whether it was made.</returns>
    public static bool MakeFolder(string folder)
    {
        if (Directory.Exists(folder))
        {
            return false;
        }

        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
            return true;
        }

        // A folder's own name lies in the one above it: without it, all that is in the folder would be gone after a power cut.
        List<string> parents = [];
        for (string? parent = Path.GetDirectoryName(Path.GetFullPath(folder)); parent is not null; parent = Path.GetDirectoryName(parent))
        {
            parents.Add(parent);
            if (Directory.Exists(parent))
            {
                break;
            }
        }

        Directory.CreateDirectory(folder, OwnFolder);
        parents.ForEach(SyncFolder);
        return true;
    }

    /// <summary>Opens a new file for writing and reading that only its owner may read.</summary>
    public static FileStream NewFile(string path, FileMode mode = FileMode.CreateNew, FileOptions options = FileOptions.None)
    {
        FileStreamOptions how = new() { Mode = mode, Access = FileAccess.ReadWrite, Share = FileShare.None, BufferSize = 1 << 16, Options = options };
        if (!OperatingSystem.IsWindows())
        {
            how.UnixCreateMode = OwnFile;
        }

        return new(path, how);
    }

    /// <summary>Renames a file whose content is on the disk, and waits until the name is on the disk too.</summary>
    /// <param name="from">Its name now.</param>
    /// <param name="to">Its name then, in the same folder or one on the same disk; what is there goes.</param>
    public static void Rename(string from, string to)
    {
        using (FileStream file = new(from, FileMode.Open, FileAccess.ReadWrite, FileShare.ReadWrite))
        {
            file.Flush(flushToDisk: true);
        }

        File.Move(from, to, overwrite: true);
        SyncFolder(Path.GetDirectoryName(Path.GetFullPath(to))!);
    }

    /// <summary>Waits until the names in a folder are on the disk, where the system keeps them apart from the files.</summary>
    public static void SyncFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        const int ReadOnly = 0;
        int handle = Open(folder, ReadOnly);
        if (handle >= 0)
        {
            // Some file systems cannot do it for folders; they have nothing to wait for.
            _ = Sync(handle);
            _ = Close(handle);
        }
    }

    [LibraryImport("libc", EntryPoint = "open", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Sync(int handle);

    [LibraryImport("libc", EntryPoint = "close")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Close(int handle);
}
