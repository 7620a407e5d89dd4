using System.Diagnostics;

namespace Swardloop.Cli.Tests;

/// <summary>When the script <c>swardloop</c> builds: in a folder of its own, with a stand-in for the SDK that notes what it is asked for.</summary>
[System.Runtime.Versioning.UnsupportedOSPlatform("windows")]
public sealed class ScriptTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("swardloop-script-").FullName;

    public ScriptTests()
    {
        Directory.CreateDirectory(Path.Combine(_root, "src", "Swardloop.Cli"));
        Directory.CreateDirectory(Path.Combine(_root, "bin-of-test"));
        foreach (string file in (string[])["global.json", "Directory.Build.props", "src/Swardloop.Cli/A.cs", "src/Swardloop.Cli/B.cs"])
        {
            File.WriteAllText(Path.Combine(_root, file), file);
        }

        File.Copy(Repository.At("swardloop"), Path.Combine(_root, "swardloop"));
        string sdk = Path.Combine(_root, "bin-of-test", "dotnet");
        File.WriteAllText(sdk, $$"""
            #!/usr/bin/env bash
            [[ $1 == publish ]] || exit 0
            echo build >>"{{_root}}/builds"
            while [[ $1 != -o ]]; do shift; done
            touch "$2/swardloop.dll"
            """);
        File.SetUnixFileMode(sdk, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }

    [Fact]
    public void Building_tests_or_benchmarks_does_not_make_the_program_build_again_and_any_change_of_a_source_does()
    {
        string own = Path.Combine(_root, "src", "Swardloop.Cli");
        Assert.Equal(1, Builds());
        Assert.Equal(1, Builds());

        // What a build of tests does: folders of its own beside the sources.
        Directory.CreateDirectory(Path.Combine(own, "obj", "Release"));
        File.WriteAllText(Path.Combine(own, "obj", "Release", "made.cs"), "");
        Directory.CreateDirectory(Path.Combine(own, "bin"));
        Assert.Equal(1, Builds());

        File.SetLastWriteTimeUtc(Path.Combine(own, "A.cs"), DateTime.UtcNow.AddSeconds(5));
        Assert.Equal(2, Builds());
        File.SetLastWriteTimeUtc(Path.Combine(own, "A.cs"), DateTime.UtcNow.AddDays(-1));
        File.Delete(Path.Combine(own, "B.cs"));
        Assert.Equal(3, Builds());
        Assert.Equal(3, Builds());
    }

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private int Builds()
    {
        ProcessStartInfo start = new("bash", [Path.Combine(_root, "swardloop"), "steps"]) { RedirectStandardError = true };
        start.Environment["PATH"] = $"{Path.Combine(_root, "bin-of-test")}:{Environment.GetEnvironmentVariable("PATH")}";
        using Process process = Process.Start(start)!;
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, error);
        return File.ReadAllLines(Path.Combine(_root, "builds")).Length;
    }
}
