using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace Swardloop.Browser.Tests;

/// <summary>Server and client as they are published: trimmed, with the service worker and its list of files.</summary>
/// <param name="Folder">Where.</param>
public sealed partial record PublishedBuild(string Folder)
{
    private static readonly string[] Changed =
        ["swardloop.css", "page.js", "service-worker.js", "service-worker-assets.js", "swardloop-server.staticwebassets.endpoints.json", "swardloop-server.dll"];

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

    /// <summary>A build that differs from this one in its style sheet and its script, with lists and hashes as publishing writes them.</summary>
    /// <param name="mark">What <c>globalThis.swardloopBuild</c> is in it, and what its style sheet says.</param>
    public PublishedBuild Next(string mark)
    {
        string folder = $"{Folder}-{mark}";
        if (Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        // Links, but for what differs: the server's libraries are some hundred megabytes.
        foreach (string directory in Directory.EnumerateDirectories(Folder, "*", SearchOption.AllDirectories).Prepend(Folder))
        {
            Directory.CreateDirectory(folder + directory[Folder.Length..]);
        }

        foreach (string file in Directory.EnumerateFiles(Folder, "*", SearchOption.AllDirectories))
        {
            string copy = folder + file[Folder.Length..];
            // What is served must be a file: the length of a link is that of its path.
            if (Changed.Contains(Path.GetFileName(file)) || file.StartsWith(Path.Combine(Folder, "wwwroot"), StringComparison.Ordinal))
            {
                File.Copy(file, copy);
            }
            else
            {
                File.CreateSymbolicLink(copy, file);
            }
        }

        string root = Path.Combine(folder, "wwwroot"), list = Path.Combine(root, "service-worker-assets.js");
        string files = File.ReadAllText(list);
        foreach ((string name, string more) in (IEnumerable<(string, string)>)[("swardloop.css", $"/* {mark} */\n"), ("page.js", $"globalThis.swardloopBuild = \"{mark}\";\n")])
        {
            string file = Path.Combine(root, name), before = Hash(file);
            File.AppendAllText(file, more);
            Assert.Contains(before, files, StringComparison.Ordinal);
            files = files.Replace(before, Hash(file), StringComparison.Ordinal);
        }

        File.WriteAllText(list, Version().Replace(files, $"\"version\": \"{mark}\"", 1));
        File.AppendAllText(Path.Combine(root, "service-worker.js"), $"// {mark}\n");
        RewriteEndpoints(Path.Combine(folder, "swardloop-server.staticwebassets.endpoints.json"), root);
        return new(folder);
    }

    // The server answers with the lengths and tags of this list.
    private static void RewriteEndpoints(string list, string root)
    {
        JsonNode endpoints = JsonNode.Parse(File.ReadAllText(list))!;
        // Packed copies hold the file as it was.
        endpoints["Endpoints"]!.AsArray().RemoveAll(endpoint => Changed.Any(file => (string)endpoint!["AssetFile"]! == file + ".gz" || (string)endpoint["AssetFile"]! == file + ".br"));
        foreach (JsonNode? endpoint in endpoints["Endpoints"]!.AsArray().Where(endpoint => Changed.Contains((string)endpoint!["AssetFile"]!)))
        {
            FileInfo file = new(Path.Combine(root, (string)endpoint!["AssetFile"]!));
            foreach (JsonNode? header in endpoint["ResponseHeaders"]!.AsArray())
            {
                header!["Value"] = (string)header["Name"]! switch
                {
                    "Content-Length" => file.Length.ToString(CultureInfo.InvariantCulture),
                    "ETag" => $"\"{Hash(file.FullName)}\"",
                    _ => (string)header["Value"]!,
                };
            }

            foreach (JsonNode? property in endpoint["EndpointProperties"]!.AsArray().Where(property => (string)property!["Name"]! == "integrity"))
            {
                property!["Value"] = $"sha256-{Hash(file.FullName)}";
            }
        }

        File.WriteAllText(list, endpoints.ToJsonString());
    }

    private static string Hash(string file) => Convert.ToBase64String(SHA256.HashData(File.ReadAllBytes(file)));

    [GeneratedRegex("\"version\": \"[^\"]*\"")]
    private static partial Regex Version();

    /// <summary>The repository.</summary>
    public static string Root()
    {
        string? folder = AppContext.BaseDirectory;
        while (folder is not null && !File.Exists(Path.Combine(folder, "Swardloop.slnx")))
        {
            folder = Path.GetDirectoryName(folder);
        }

        return folder ?? throw new InvalidOperationException("The repository is not above the tests.");
    }
}
