using System.Diagnostics;

namespace Swardloop.Cli.Tests;

/// <summary>The program as people start it: the script at the root and what it published.</summary>
public sealed class ProgramTests
{
    private static CliRun Start(string directory, string input, params string[] arguments)
    {
        ProcessStartInfo start = new("bash", [Repository.At("swardloop"), .. arguments])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = directory,
        };
        using Process process = Process.Start(start)!;
        process.StandardInput.Write(input);
        process.StandardInput.Close();
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();

        // The script says on standard error when it has to build first.
        string said = string.Join('\n', error.Result.Split('\n').Where(line => !line.StartsWith("swardloop: building", StringComparison.Ordinal)));
        return new(process.ExitCode, output, said);
    }

    [Fact]
    public void Published_program_keeps_the_exit_codes_and_streams_apart()
    {
        string elsewhere = Path.GetTempPath();
        string yard = File.ReadAllText(Repository.At("examples/thimble-court.yard.json"));

        CliRun done = Start(elsewhere, yard, "budget", "-", "--json");
        Assert.Equal((0, ""), (done.ExitCode, done.Error));
        Assert.Equal(CliRun.WithInput(yard, "budget", "-", "--json").Output, done.Output);

        CliRun wrong = Start(elsewhere, "", "budget", "no such.yard.json");
        Assert.Equal(
            "no such.yard.json: no such file; allowed: a file that exists, or - for standard input",
            wrong.RefusedLine());

        CliRun unknown = Start(elsewhere, "", "mow");
        Assert.StartsWith("swardloop: \"mow\": unknown command; allowed: ", unknown.RefusedLine(), StringComparison.Ordinal);

        Assert.Equal("Swardloop", Start(Repository.Root, "", "help").Output.Split(':')[0]);
    }
}
