using System.Diagnostics;
using Swardloop.Server.Serving;

namespace Swardloop.Server.Tests.Serving;

/// <summary>A PostgreSQL of Debian's package in a folder of its own, listening on a socket in that folder only; each place is a new database.</summary>
public sealed class PostgresServer : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("swardloop-pg-").FullName;
    private string _programs = "";
    private int _made;

    private string Data => Path.Combine(_folder, "data");

    public async ValueTask InitializeAsync()
    {
        _programs = Directory.Exists("/usr/lib/postgresql")
            ? Directory.EnumerateDirectories("/usr/lib/postgresql").OrderBy(version => version, StringComparer.Ordinal).Last() + "/bin"
            : throw new InvalidOperationException("PostgreSQL is not installed: run ./test, or install the Debian package postgresql.");
        // The server refuses to run as root; its own user owns the folder then.
        if (IsRoot)
        {
            await RunAsync("chown", "postgres", _folder);
        }

        await AsServerAsync("initdb", "-D", Data, "-U", "workshop", "--auth=trust", "--no-sync", "-E", "UTF8", "--locale=C");
        await StartAsync();
    }

    /// <summary>Starts it; after a crash it first brings its files in order.</summary>
    internal Task StartAsync() => AsServerAsync(
        "pg_ctl", "-D", Data, "-w", "-t", "120", "-l", Path.Combine(_folder, "log"), "-o", $"-c listen_addresses= -c unix_socket_directories={_folder} -c fsync=off", "start");

    /// <summary>Stops it without a checkpoint, as an impatient person does.</summary>
    internal Task StopAtOnceAsync() => AsServerAsync("pg_ctl", "-D", Data, "-m", "immediate", "stop");

    /// <summary>Kills all its processes, kill −9.</summary>
    internal async Task KillAsync()
    {
        int postmaster = Postmaster();
        Process[] all = [.. Children(postmaster).Prepend(postmaster).Select(Find).OfType<Process>()];
        foreach (Process process in all)
        {
            process.Kill();
            await process.WaitForExitAsync();
            process.Dispose();
        }
    }

    /// <summary>Kills one of the processes that serve connections, kill −9: it ends all the others itself and begins anew.</summary>
    internal void KillOneConnection()
    {
        using Process process = Children(Postmaster()).Where(id => CommandOf(id).Contains("workshop workshop", StringComparison.Ordinal)).Select(Find).OfType<Process>().First();
        process.Kill();
    }

    private int Postmaster() => int.Parse(File.ReadLines(Path.Combine(Data, "postmaster.pid")).First(), System.Globalization.CultureInfo.InvariantCulture);

    private static IEnumerable<int> Children(int parent)
    {
        foreach (string name in Directory.EnumerateDirectories("/proc").Select(path => Path.GetFileName(path)).Where(name => int.TryParse(name, out _)).ToList())
        {
            string status = "";
            try
            {
                status = File.ReadAllText($"/proc/{name}/status");
            }
            catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
            {
                // It has ended meanwhile.
            }

            if (status.Contains($"\nPPid:\t{parent}\n", StringComparison.Ordinal))
            {
                yield return int.Parse(name, System.Globalization.CultureInfo.InvariantCulture);
            }
        }
    }

    private static string CommandOf(int process)
    {
        try
        {
            return File.ReadAllText($"/proc/{process}/cmdline");
        }
        catch (IOException)
        {
            return "";
        }
    }

    private static Process? Find(int process)
    {
        try
        {
            return Process.GetProcessById(process);
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    internal async Task<WorkshopPlace> NewPlaceAsync()
    {
        string name = $"workshop{Interlocked.Increment(ref _made)}";
        await RunAsync(Path.Combine(_programs, "createdb"), "-h", _folder, "-U", "workshop", name);
        return new(_folder, $"Host={_folder};Database={name};Username=workshop;Pooling=true;Maximum Pool Size=20", IsDemo: false);
    }

    /// <summary>Has everything written that the server keeps in memory.</summary>
    internal Task CheckpointAsync(WorkshopPlace place) => RunAsync(
        Path.Combine(_programs, "psql"), "-h", _folder, "-U", "workshop", "-d", place.ConnectionString!.Split(';')[1]["Database=".Length..], "-c", "CHECKPOINT");

    /// <summary>The files that tables lie in; readable by the server's own user and root.</summary>
    internal IEnumerable<string> TableFiles() => Directory.EnumerateFiles(Path.Combine(Data, "base"), "*", SearchOption.AllDirectories);

    public async ValueTask DisposeAsync()
    {
        await AsServerAsync("pg_ctl", "-D", Data, "-m", "immediate", "stop");
        Directory.Delete(_folder, recursive: true);
    }

    private static bool IsRoot => Environment.UserName == "root";

    private Task AsServerAsync(string program, params string[] arguments) => IsRoot
        ? RunAsync("setpriv", ["--reuid=postgres", "--regid=postgres", "--init-groups", Path.Combine(_programs, program), .. arguments])
        : RunAsync(Path.Combine(_programs, program), arguments);

    private static async Task RunAsync(string program, params string[] arguments)
    {
        // Output goes nowhere: the server inherits it and would hold the pipe open.
        ProcessStartInfo start = new("/bin/sh", ["-c", "exec \"$0\" \"$@\" >\"$SWARDLOOP_OUT\" 2>&1 </dev/null", program, .. arguments]) { WorkingDirectory = "/" };
        string output = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        start.Environment["SWARDLOOP_OUT"] = output;
        using Process process = Process.Start(start)!;
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {await File.ReadAllTextAsync(output)}");
        }

        File.Delete(output);
    }
}
