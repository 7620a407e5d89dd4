namespace Swardloop.Drawing.Tests;

/// <summary>Where the repository lies.</summary>
internal static class Repository
{
    public static string Root { get; } = Find();

    private static string Find()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Swardloop.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("The tests run inside the repository.");
    }
}
