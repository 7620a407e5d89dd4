using System.Text;

namespace Swardloop.Cli.Tests;

/// <summary>One run of the command line inside the test process, on streams of its own.</summary>
internal sealed record CliRun(int ExitCode, string Output, string Error)
{
    /// <summary>Runs it with nothing on standard input.</summary>
    public static CliRun Of(params string[] arguments) => WithInput("", arguments);

    /// <summary>Runs it with that on standard input.</summary>
    public static CliRun WithInput(string input, params string[] arguments)
    {
        using MemoryStream standardInput = new(Encoding.UTF8.GetBytes(input)), output = new(), error = new();
        int exitCode = Shell.Run(arguments, new Terminal(() => standardInput, () => output, () => error));
        return new(exitCode, Encoding.UTF8.GetString(output.ToArray()), Encoding.UTF8.GetString(error.ToArray()));
    }

    /// <summary>Asserts what every refusal promises: exit code 2, nothing printed, one line on standard error.</summary>
    public string RefusedLine()
    {
        Assert.Equal(2, ExitCode);
        Assert.Equal("", Output);
        Assert.EndsWith("\n", Error, StringComparison.Ordinal);
        string line = Error[..^1];
        Assert.DoesNotContain('\n', line);
        return line;
    }
}
