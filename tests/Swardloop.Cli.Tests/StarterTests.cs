using System.Text.RegularExpressions;

namespace Swardloop.Cli.Tests;

/// <summary>The starters that hand a call to the command line or to the server: the one at the root, and those of the archives.</summary>
public sealed class StarterTests
{
    [Theory]
    [InlineData("swardloop", "^ *([a-z |]+)\\) return 0")]
    [InlineData("deploy/swardloop", "^ *([a-z |]+)\\) part=server")]
    [InlineData("deploy/swardloop.cmd", "^for %%c in \\(([a-z ]+)\\)")]
    public void Every_command_of_the_server_reaches_the_server(string starter, string pattern)
    {
        string list = Regex.Match(File.ReadAllText(Repository.At(starter)), pattern, RegexOptions.Multiline).Groups[1].Value;
        string[] named = [.. list.Split([' ', '|'], StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal)];

        // "export" is the server's only with --everything; the starters look for that themselves.
        string[] commands = [.. ServerSyntax.Commands.Select(command => command.Name).Where(name => name != "export").Order(StringComparer.Ordinal)];
        Assert.Equal(commands, named);
        Assert.Contains("--everything", File.ReadAllText(Repository.At(starter)), StringComparison.Ordinal);
    }
}
