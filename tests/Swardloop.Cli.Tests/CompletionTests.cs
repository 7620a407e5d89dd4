namespace Swardloop.Cli.Tests;

public sealed class CompletionTests
{
    [Fact]
    public void Script_for_bash_completes_every_command()
    {
        CliRun run = CliRun.Of("completion", "bash");
        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.All(CommandList.Names, name => Assert.Contains($" {name} ", run.Output.Replace('"', ' '), StringComparison.Ordinal));
        Assert.Contains("complete -o filenames -F _swardloop swardloop", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Version_is_one_line() => Assert.Matches(@"^swardloop \d+\.\d+\.\d+\n$", CliRun.Of("--version").Output);
}
