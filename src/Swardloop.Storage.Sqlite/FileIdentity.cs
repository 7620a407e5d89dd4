using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;

namespace Swardloop.Storage.Sqlite;

/// <summary>Whether the database file is still the one that this server opened. A copy that was renamed over it, or written into it, is another one,
/// though it has its name: SQLite's locks and its log of changes then belong to two files, and both are damaged by whoever goes on writing.</summary>
/// <remarks>Source: SQLite, "How To Corrupt An SQLite Database File", sections 2.4 (unlinking or renaming a database file while in use) and 1.2,
/// and the file control SQLITE_FCNTL_HAS_MOVED of "Standard File Control Opcodes", sqlite.org. It compares the open file's inode with the path's; the
/// random mark, kept as the file's user version, tells a file from before this start. What is written into the same file by another program cannot be
/// told from outside without touching its locks, and is not found for certain.</remarks>
internal sealed partial class FileIdentity : IDisposable
{
    private const int HasMoved = 20, Ok = 0;

    private readonly SqliteConnection _anchor;
    private readonly string _file;
    private readonly int _mark = RandomNumberGenerator.GetInt32(1, int.MaxValue);
    private volatile string? _lost;

    /// <summary>Holds on to the file and marks it.</summary>
    /// <param name="file">The file.</param>
    /// <param name="connectionString">How to open it.</param>
    public FileIdentity(string file, string connectionString)
    {
        _file = file;
        _anchor = new(new SqliteConnectionStringBuilder(connectionString) { Pooling = false }.ToString());
        _anchor.Open();
        using SqliteCommand command = _anchor.CreateCommand();
        command.CommandText = string.Create(CultureInfo.InvariantCulture, $"PRAGMA busy_timeout=30000; PRAGMA user_version={_mark}");
        command.ExecuteNonQuery();
    }

    /// <summary>Makes sure that the path still names the file held, and for good refuses everything once it did not.</summary>
    /// <exception cref="DatabaseReplacedException">It names another one.</exception>
    public void CheckPath()
    {
        // A file that is only away may come back, and is told apart by whoever opens it.
        if (_lost is null && File.Exists(_file) && IsMoved(_anchor))
        {
            lock (_anchor)
            {
                _lost ??= $"another file was put in the place of the database{Rescue()}";
            }
        }

        if (_lost is not null)
        {
            throw new DatabaseReplacedException(
                $"{_lost} while the server ran: nothing more is kept until it is stopped and started again; what devices have not sent stays on them");
        }
    }

    /// <summary>Makes sure that a connection just opened leads to the file held.</summary>
    /// <exception cref="DatabaseReplacedException">It leads to another one.</exception>
    public void CheckMark(SqliteConnection connection)
    {
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = "PRAGMA user_version";
        if ((long)command.ExecuteScalar()! != _mark)
        {
            _lost ??= "the content of the database file was exchanged";
        }

        CheckPath();
    }

    /// <inheritdoc/>
    public void Dispose() => _anchor.Dispose();

    /// <summary>Writes what the vanished file held into a file of its own, all that was answered as kept in it, and puts its log of changes aside:
    /// the next start would play it into the copy.</summary>
    private string Rescue()
    {
        string name = $"{Path.GetFileNameWithoutExtension(_file)}.rescued-{Guid.NewGuid():N}.db", path = Path.Combine(Path.GetDirectoryName(_file)!, name), said = "";
        try
        {
            Durable.NewFile(path).Dispose();
            using SqliteCommand command = _anchor.CreateCommand();
            command.CommandText = "VACUUM INTO $path";
            command.Parameters.AddWithValue("$path", path);
            command.ExecuteNonQuery();
            said = $", what it held until then is in {name},";
        }
        catch (Exception fault) when (fault is SqliteException or IOException or UnauthorizedAccessException)
        {
            File.Delete(path); // no room: the log below still holds the last changes
        }

        foreach (string part in (string[])["-wal", "-shm"])
        {
            if (File.Exists(_file + part))
            {
                File.Move(_file + part, path + part + ".aside", overwrite: true);
            }
        }

        return said;
    }

    private static bool IsMoved(SqliteConnection connection)
    {
        int moved = 0;
        // Where the file system cannot tell, as on Windows, an open file cannot be renamed over either.
        return FileControl(connection.Handle!.DangerousGetHandle(), "main", HasMoved, ref moved) == Ok && moved != 0;
    }

    [LibraryImport("e_sqlite3", EntryPoint = "sqlite3_file_control", StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.AssemblyDirectory | DllImportSearchPath.SafeDirectories)]
    private static partial int FileControl(nint database, string name, int operation, ref int argument);
}
