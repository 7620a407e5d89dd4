using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Swardloop.Server.Tests.Processes;

/// <summary>The server as a process of its own, as a person starts it.</summary>
internal sealed partial class ServerProcess : IDisposable
{
    /// <summary>How the fault begins that says so.</summary>
    public const string DidNotStart = "The server did not start";

    private readonly Process _process;

    private ServerProcess(Process process, Uri address, string? code) => (_process, Address, Code) = (process, address, code);

    public Uri Address { get; }

    /// <summary>The code for the first account; null when it was not waited for.</summary>
    public string? Code { get; }

    private static string Program => Path.Combine(AppContext.BaseDirectory, "swardloop-server.dll");

    /// <summary>Starts it and waits until it says where it is.</summary>
    /// <param name="folder">Its data.</param>
    /// <param name="isNew">Whether there is no account yet: waits for the code too.</param>
    /// <param name="before">Shell commands before the program, each with its semicolon: limits, or <c>LAUNCHER</c> for a program that starts it.</param>
    public static async Task<ServerProcess> StartAsync(string folder, bool isNew = false, string before = "")
    {
        Process process = Start(Serving(folder), before);
        StringBuilder errors = new();
        process.ErrorDataReceived += (_, line) => errors.AppendLine(line.Data);
        process.BeginErrorReadLine();
        Uri? address = null;
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (AddressPattern().Match(line) is { Success: true } match)
            {
                address = new(match.Value);
            }

            if (address is not null && (!isNew || line.Contains("code: ", StringComparison.Ordinal)))
            {
                return new(process, address, isNew ? line.Split("code: ")[^1] : null);
            }
        }

        await process.WaitForExitAsync();
        throw new InvalidOperationException($"{DidNotStart}: {errors}");
    }

    /// <summary>Runs it to its end; for starts that must be refused.</summary>
    public static Task<(int ExitCode, string Error)> RunAsync(string folder, string before = "") => RunAsync(Serving(folder), before);

    /// <summary>Runs a command of the program to its end.</summary>
    public static async Task<(int ExitCode, string Error)> RunAsync(string[] command, string before = "")
    {
        using Process process = Start(command, before);
        Task<string> error = process.StandardError.ReadToEndAsync(), output = process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        await output;
        return (process.ExitCode, await error);
    }

    /// <summary>Starts it and kills it when something has happened; false when it ended by itself before.</summary>
    public static Task<bool> StartAndKillAsync(string folder, Func<CancellationToken, Task> until) => StartAndKillAsync(Serving(folder), until);

    /// <summary>Starts a command of the program and kills it when something has happened; false when it ended by itself before: nobody waits any longer then.</summary>
    public static async Task<bool> StartAndKillAsync(string[] command, Func<CancellationToken, Task> until)
    {
        using CancellationTokenSource ended = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using Process process = Start(command, "");
        Task<string> error = process.StandardError.ReadToEndAsync(), output = process.StandardOutput.ReadToEndAsync();
        Task waiting = until(ended.Token);
        await Task.WhenAny(waiting, process.WaitForExitAsync());
        bool isRunning = !process.HasExited;
        process.Kill();
        await process.WaitForExitAsync();
        await Task.WhenAll(error, output);
        await ended.CancelAsync();
        await Task.WhenAny(waiting); // ended or cancelled
        return waiting.IsFaulted ? throw waiting.Exception! : isRunning;
    }

    /// <summary>Ends it at once, kill −9.</summary>
    public async Task KillAsync()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
    }

    public void Dispose()
    {
        if (!_process.HasExited)
        {
            _process.Kill();
            _process.WaitForExit();
        }

        _process.Dispose();
    }

    private static string[] Serving(string folder) => ["serve", "--urls", "http://127.0.0.1:0", "--data", folder];

    private static Process Start(string[] command, string before) => Process.Start(new ProcessStartInfo(
        "/bin/sh", ["-c", $"{before} exec $LAUNCHER dotnet \"$0\" \"$@\"", Program, .. command])
    {
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;

    [GeneratedRegex(@"http://[0-9.]+:[0-9]+")]
    private static partial Regex AddressPattern();
}
