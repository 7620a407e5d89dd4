using System.Diagnostics;

namespace Swardloop.Browser.Tests;

/// <summary>Server and client as they are published: trimmed, with the service worker and its list of files.</summary>
/// <param name="Folder">Where.</param>
public sealed record PublishedBuild(string Folder)
{
    /// <summary>The server.</summary>
    public string Program => Path.Combine(Folder, "swardloop-server.dll");

    /// <summary>Publishes what was built. Not compressed: that takes longer than all else, and a browser sees no difference.</summary>
    public static async Task<PublishedBuild> MakeAsync()
    {
        string root = Root(), folder = Path.Combine(root, ".build", "browser-tests");
        using Process publish = Process.Start(new ProcessStartInfo("dotnet",
        [
            "publish", Path.Combine(root, "src", "Swardloop.Server"), "-c", "Release", "--no-build", "--no-restore", "-nodeReuse:false", "-o", folder,
            "-p:CompressionEnabled=false", "-p:PublishDocumentationFiles=false", "--nologo", "-v", "quiet",
        ])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        Task<string> error = publish.StandardError.ReadToEndAsync();
        string said = await publish.StandardOutput.ReadToEndAsync() + await error;
        await publish.WaitForExitAsync();
        return publish.ExitCode == 0 ? new(folder) : throw new InvalidOperationException($"The server could not be published: {said}");
    }

    private static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Swardloop.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The repository is not above the tests.");
    }
}
