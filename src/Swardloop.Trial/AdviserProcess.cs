using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text;

namespace Swardloop.Trial;

/// <summary>A program that answers cases with advice, line by line, on its standard input and output. Each thread that asks gets a process
/// of its own, which is kept for the next who asks; disposing ends them.</summary>
/// <param name="program">The program to start.</param>
/// <param name="arguments">Its arguments.</param>
public sealed class AdviserProcess(string program, IReadOnlyList<string> arguments) : IDisposable
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);
    private readonly ConcurrentBag<Process> _idle = [];

    /// <summary>One line answered by one line.</summary>
    /// <exception cref="InvalidOperationException">The program ended without an answer.</exception>
    public string Answer(string line)
    {
        if (!_idle.TryTake(out Process? process))
        {
            process = Process.Start(new ProcessStartInfo(program, arguments)
            {
                RedirectStandardInput = true,
                RedirectStandardOutput = true,
                StandardInputEncoding = Utf8,
                StandardOutputEncoding = Utf8,
            }) ?? throw new InvalidOperationException($"{program} did not start.");
        }

        process.StandardInput.Write(line + "\n");
        process.StandardInput.Flush();
        if (process.StandardOutput.ReadLine() is not { } answer)
        {
            process.Dispose();
            throw new InvalidOperationException($"{program} ended without an answer.");
        }

        _idle.Add(process);
        return answer;
    }

    /// <summary>Ends every process by ending its input, and waits for it.</summary>
    public void Dispose()
    {
        while (_idle.TryTake(out Process? process))
        {
            process.StandardInput.Close();
            if (!process.WaitForExit(TimeSpan.FromSeconds(10)))
            {
                process.Kill();
            }

            process.Dispose();
        }
    }
}
