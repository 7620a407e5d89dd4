using System.Text;
using System.Text.Json;
using Swardloop.Cli.Commands;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;

namespace Swardloop.Cli.Tests;

[Collection(HeapIsMeasured.Name)]
public sealed class AdviseCommandTests
{
    private const string Yard = """{ "format": "swardloop-yard/1", "name": "Plain", "loop": { "path": [[0,0],[10,0],[10,10],[0,10],[0,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } }""";

    private static string Case(string observations) => $$"""{ "format": "swardloop-case/1", "yard": {{Yard}}, "observations": [{{observations}}] }""";

    /// <summary>Says only how many observations it was given; throws when a lamp is off.</summary>
    private static Advice Counting(ServiceCase serviceCase, CausePriors priors, CancellationToken cancellation) =>
        serviceCase.Observations.Contains(new Observation.StationLamp(LampState.Off))
            ? throw new InvalidOperationException("a lamp is off")
            : new()
            {
                Causes = [new(new Cause(CauseKind.None), 1)],
                Density = [],
                Evidence = [.. serviceCase.Observations.Select((_, index) => new EvidenceWeight(index, []))],
                Next = [],
                Finished = true,
            };

    [Fact]
    public void The_app_gives_the_bytes_of_the_command_line()
    {
        string path = Path.Combine(Repository.Root, "examples", "sorrel-corner.case.json");
        CliRun run = CliRun.Of("advise", path, "--json");
        ServiceCase serviceCase = CaseFile.Read(File.ReadAllBytes(path), path, yard => File.ReadAllBytes(Path.Combine(Repository.Root, "examples", yard))).Value!.Case;
        Advice advice = Advisor.Advise(serviceCase, CausePriors.Default, TestContext.Current.CancellationToken);
        Assert.Equal(run.Output, Encoding.UTF8.GetString(AdviceJson.ToUtf8(advice, serviceCase)));
    }

    private static List<JsonElement> Stream(Stream input, out long allocated)
    {
        using MemoryStream none = new();
        Terminal terminal = new(() => input, () => none, () => none);
        AdviseCommand command = new(Counting);
        JsonLinesResult result = (JsonLinesResult)command.Run(Invocation.Parse(command.Syntax, ["--stream"], terminal));
        List<JsonElement> answers = [];
        long before = GC.GetTotalMemory(forceFullCollection: true);
        foreach (Action<Utf8JsonWriter> write in result.Lines)
        {
            using MemoryStream line = new();
            using (Utf8JsonWriter writer = new(line))
            {
                write(writer);
            }

            answers.Add(JsonDocument.Parse(line.ToArray()).RootElement);
        }

        allocated = GC.GetTotalMemory(forceFullCollection: true) - before;
        return answers;
    }

    private static List<JsonElement> Stream(string input) => Stream(new MemoryStream(Encoding.UTF8.GetBytes(input)), out _);

    [Fact]
    public void Each_line_is_answered_by_a_line_and_a_bad_one_by_its_error()
    {
        string lamp = """{ "test": "station-lamp", "value": "normal" }""";
        List<JsonElement> answers = Stream(string.Join('\n',
            Case(""),
            "{ nonsense",
            Case(lamp) + "\r",
            "",
            Case("""{ "test": "station-lamp", "value": "green" }"""),
            Case("""{ "test": "station-lamp", "value": "off" }"""),
            Case($"{lamp}, {lamp}")));

        Assert.Equal(7, answers.Count);
        Assert.Equal([0, 1, 2], new[] { answers[0], answers[2], answers[6] }.Select(answer => answer.GetProperty("evidence").GetArrayLength()));
        Assert.All([answers[1], answers[3], answers[4], answers[5]], answer => Assert.Equal(JsonValueKind.String, answer.GetProperty("error").ValueKind));
        Assert.Equal("observations[0].value", answers[4].GetProperty("problems")[0].GetProperty("place").GetString());
        Assert.Contains("a lamp is off", answers[5].GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void No_input_gives_no_line() => Assert.Empty(Stream(""));

    [Fact]
    public void A_line_without_an_end_is_answered() => Assert.Equal(2, Stream(Case("") + "\n" + Case("")).Count);

    [Fact]
    public void A_line_too_long_to_be_a_case_is_answered_and_passed_over()
    {
        List<JsonElement> answers = Stream(new string('x', 17 << 20) + "\n" + Case("") + "\n");

        Assert.Equal(2, answers.Count);
        Assert.Contains("16 MiB", answers[0].GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.True(answers[1].GetProperty("finished").GetBoolean());
    }

    [Fact]
    public void An_answer_is_flushed_before_the_next_line_is_asked_for()
    {
        List<int> flushedAtRead = [];
        using MemoryStream output = new();
        using Dripping input = new([.. Enumerable.Repeat(Case("{}") + "\n", 3)],
            () => flushedAtRead.Add(Encoding.UTF8.GetString(output.ToArray()).Count(c => c == '\n')));

        Assert.Equal(0, Shell.Run(["advise", "--stream"], new Terminal(() => input, () => output, () => output)));
        Assert.Equal([0, 1, 2, 3], flushedAtRead);
    }

    [Fact]
    public void A_thousand_cases_leave_no_memory_behind()
    {
        // Every case has a yard of its own, so that keeping them would show: about 600 kB of file alone.
        string input = string.Concat(Enumerable.Range(0, 1000).Select(i => Case("").Replace("Plain", $"Plain {i}", StringComparison.Ordinal) + "\n"));

        Assert.Equal(1000, Stream(new MemoryStream(Encoding.UTF8.GetBytes(input)), out long kept).Count);
        Assert.InRange(kept, long.MinValue, 1000 * 1500);
    }

    [Theory]
    [InlineData("CASE", "advise")]
    [InlineData("--stream", "advise", "--stream", "some.case.json")]
    [InlineData("no-such.case.json: no such file", "advise", "no-such.case.json")]
    [InlineData("no-such.json: no such file", "advise", "--stream", "--priors", "no-such.json")]
    public void A_wrong_call_is_refused_in_one_line(string contains, params string[] arguments) =>
        Assert.Contains(contains, CliRun.Of(arguments).RefusedLine(), StringComparison.Ordinal);

    [Fact]
    public void A_wrong_case_is_refused_with_all_its_problems()
    {
        string line = CliRun.WithInput(Case("""{ "test": "loop-resistance", "ohms": -5 }, { "test": "look", "fromM": 3 }"""), "advise", "-").RefusedLine();

        Assert.Contains("standard input: observations[0].ohms: got -5; allowed: a number from 0", line, StringComparison.Ordinal);
        Assert.Contains("observations[1].toM: missing", line, StringComparison.Ordinal);
    }

    /// <summary>Gives one line per read, and tells each time that it is asked.</summary>
    private sealed class Dripping(string[] lines, Action asked) : MemoryStream
    {
        private int _next;

        public override int Read(byte[] buffer, int offset, int count)
        {
            asked();
            return _next < lines.Length ? Encoding.UTF8.GetBytes(lines[_next++], buffer.AsSpan(offset, count)) : 0;
        }
    }
}
