using Swardloop.Server.Serving;

namespace Swardloop.Server.Tests.Serving;

/// <summary>Empty places for workshops.</summary>
internal static class TestPlaces
{
    // All of a run's folders are in one, which goes when the run ends.
    private static readonly string Root = MakeRoot();

    /// <summary>A folder of its own.</summary>
    public static WorkshopPlace Sqlite(bool isDemo = false) => new(Directory.CreateDirectory(Path.Combine(Root, Path.GetRandomFileName())).FullName, null, isDemo);

    private static string MakeRoot()
    {
        string root = Directory.CreateTempSubdirectory("swardloop-test-").FullName;
        // The server of one test runs as nobody and looks into its folder.
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(root, File.GetUnixFileMode(root) | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
        }

        AppDomain.CurrentDomain.ProcessExit += (_, _) => Clear(root);
        return root;
    }

    private static void Clear(string root)
    {
        try
        {
            foreach (string folder in Directory.EnumerateDirectories(root))
            {
                if (!OperatingSystem.IsWindows())
                {
                    File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
                }
            }

            Directory.Delete(root, recursive: true);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // A process of a test that was cut short may still write there; whoever clears the temporary folder clears this too.
        }
    }
}
