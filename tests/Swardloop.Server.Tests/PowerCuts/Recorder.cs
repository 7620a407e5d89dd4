using System.Diagnostics;

namespace Swardloop.Server.Tests.PowerCuts;

/// <summary>Builds recorder.c, once a run, and starts programs under it.</summary>
internal static class Recorder
{
    private static readonly Lazy<string> Library = new(Build);

    /// <summary>Shell words before a server's start: it runs under the recorder.</summary>
    /// <param name="folder">What is watched.</param>
    /// <param name="record">Where it is written down.</param>
    /// <param name="liesAboutSyncs">Whether the disk says it keeps what it does not.</param>
    public static string Before(string folder, string record, bool liesAboutSyncs = false) =>
        $"export LD_PRELOAD='{Library.Value}' RECORDED_FOLDER='{folder}' RECORD='{record}'{(liesAboutSyncs ? " RECORDED_SYNCS=ignored" : "")};";

    /// <summary>Runs shell words under the recorder, to their end.</summary>
    public static async Task ShellAsync(string folder, string record, string words)
    {
        using Process process = Process.Start(new ProcessStartInfo("/bin/sh", ["-ec", $"cd \"$0\"; {Before(folder, record)} exec sh -ec \"$1\"", folder, words]) { RedirectStandardError = true })!;
        string error = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, error);
    }

    private static string Build()
    {
        string library = Path.Combine(Serving.TestPlaces.Sqlite().Folder, "recorder.so");
        using Process process = Process.Start(new ProcessStartInfo(
            "gcc", ["-O1", "-shared", "-fPIC", "-o", library, Repository.At("tests/Swardloop.Server.Tests/PowerCuts/recorder.c"), "-lpthread"])
        { RedirectStandardError = true })!;
        string error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0 ? library : throw new InvalidOperationException($"gcc: {error}");
    }
}
