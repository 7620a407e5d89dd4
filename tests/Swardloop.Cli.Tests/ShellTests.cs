namespace Swardloop.Cli.Tests;

public sealed class ShellTests
{
    [Fact]
    public void Unknown_command_is_refused_with_the_known_ones()
    {
        string line = CliRun.Of("mow").RefusedLine();
        Assert.StartsWith("swardloop: \"mow\": unknown command; allowed: ", line, StringComparison.Ordinal);
        Assert.Contains("steps", line, StringComparison.Ordinal);
    }

    [Fact]
    public void Unknown_option_is_refused_with_the_known_ones() =>
        Assert.Equal("swardloop steps: \"--colour\": unknown option; allowed: --json", CliRun.Of("steps", "--colour").RefusedLine());

    [Fact]
    public void Switch_with_a_value_is_refused() =>
        Assert.StartsWith("swardloop steps: \"--json\": unknown option", CliRun.Of("steps", "--json=yes").RefusedLine(), StringComparison.Ordinal);

    [Fact]
    public void Control_characters_in_an_argument_cannot_break_the_line()
    {
        string line = CliRun.Of("mow\n\u001b[31mred\u2028").RefusedLine();
        Assert.DoesNotContain('\u001b', line);
        Assert.DoesNotContain('\u2028', line);
    }

    [Fact]
    public void Endless_argument_is_cut_short()
    {
        string line = CliRun.Of(new string('x', 1_000_000)).RefusedLine();
        Assert.InRange(line.Length, 60, 300);
        Assert.Contains("…\": unknown command; allowed: ", line, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("help")]
    [InlineData("--help")]
    [InlineData("-h")]
    public void Help_lists_every_command(string asked)
    {
        CliRun run = CliRun.Of(asked);
        Assert.Equal(0, run.ExitCode);
        Assert.All(CommandList.Names, name => Assert.Contains($"  swardloop {name}", run.Output, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_listed_name_finds_its_command() =>
        Assert.All(CommandList.Names, name => Assert.Equal(name, CommandList.Find(name)?.Syntax.Name));
}
