using System.Text;
using Swardloop.Cli;
using Swardloop.Server.Serving;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>The program's commands, called inside the test process.</summary>
internal static class CommandRun
{
    public static (int ExitCode, string Output, string Error) Run(params string[] arguments)
    {
        using MemoryStream input = new(), output = new(), error = new();
        int exitCode = Shell.Run(arguments, new Terminal(() => input, () => output, () => error), name => ServerCommands.Find(name) ?? CommandList.Find(name));
        return (exitCode, Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(error.ToArray()));
    }
}
