namespace Swardloop.Server.Tests;

/// <summary>Where the repository lies on this machine.</summary>
internal static class Repository
{
    /// <summary>The directory with the solution in it.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>A file or directory of the repository.</summary>
    public static string At(string relative) => Path.Combine(Root, relative);

    private static string FindRoot()
    {
        string? directory = AppContext.BaseDirectory;
        while (directory is not null && !File.Exists(Path.Combine(directory, "Swardloop.slnx")))
        {
            directory = Path.GetDirectoryName(directory);
        }

        return directory ?? throw new InvalidOperationException("The tests run inside the repository.");
    }
}
