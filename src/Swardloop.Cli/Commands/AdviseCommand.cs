using System.Buffers;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop advise</c>: which cause, which place, which step next; for one case, or for a stream of them.</summary>
internal sealed class AdviseCommand(Func<ServiceCase, CausePriors, CancellationToken, Advice> advise) : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("advise", "From a case's readings: the likely cause, its place, and the cheapest step next.")
    {
        Positionals = [new("CASE", "Case file, or - for standard input.") { Required = false }],
        Options =
        [
            new("--stream", null, "One case per line in, one advice per line out, until the input ends."),
            new("--priors", "FILE", "The workshop's own closed cases, from swardloop learn (default: the stated defaults)."),
        ],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CausePriors priors = call.Value("--priors") is { } path ? ReadPriors(InputText.Read(path, call.Terminal)) : CausePriors.Default;
        CancellationToken cancellation = call.Terminal.OnCancel();
        if (call.Flag("--stream"))
        {
            return call.Positionals.Count == 0
                ? new JsonLinesResult(Answers(call.Terminal, priors, cancellation))
                : throw call.Wrong("CASE", "is given beside --stream", "cases on standard input, one per line");
        }

        if (call.Positionals.Count == 0)
        {
            throw call.Wrong("CASE", "is missing", Syntax.Usage);
        }

        InputText input = call.ReadFile();
        Checked<CaseFile> read = CaseFiles.Read(input, call.Terminal);
        ServiceCase serviceCase = read.IsGood ? read.Value.Case : throw new WrongInputException(string.Join(" | ", read.Lines()));
        return new AdviceResult(advise(serviceCase, priors, cancellation), serviceCase);
    }

    private static CausePriors ReadPriors(InputText input)
    {
        Checked<PriorsFile> read = PriorsFile.Read(input.Bytes, input.Name);
        return read.IsGood ? read.Value.Priors : throw new WrongInputException(string.Join(" | ", read.Lines()));
    }

    private IEnumerable<Action<Utf8JsonWriter>> Answers(Terminal terminal, CausePriors priors, CancellationToken cancellation)
    {
        YardShelf shelf = new();
        ByteLines lines = new(terminal.Input, JsonText.MostBytes);
        ArrayBufferWriter<byte> answer = new();
        while (lines.Next(out ReadOnlyMemory<byte>? line))
        {
            cancellation.ThrowIfCancellationRequested();
            answer.ResetWrittenCount();
            Answer(line, answer);
            yield return json => json.WriteRawValue(answer.WrittenSpan, skipInputValidation: true);
        }

        void Answer(ReadOnlyMemory<byte>? line, ArrayBufferWriter<byte> output)
        {
            try
            {
                Write(output, json => AnswerTo(line, json));
            }
#pragma warning disable CA1031 // Whatever one line brings about, the next is answered all the same.
            catch (Exception fault) when (fault is not OperationCanceledException)
#pragma warning restore CA1031
            {
                output.ResetWrittenCount();
                Write(output, json => WriteError(json, $"failed: {fault.GetType().Name}: {fault.Message}", []));
            }
        }

        void AnswerTo(ReadOnlyMemory<byte>? line, Utf8JsonWriter json)
        {
            if (line is not { } utf8)
            {
                WriteError(json, $"the line is longer than {JsonText.MostBytes >> 20} MiB", []);
                return;
            }

            Checked<CaseFile> read = CaseFiles.Read(new InputText("line", utf8.ToArray(), Environment.CurrentDirectory), terminal, shelf);
            if (read.IsGood)
            {
                AdviceJson.Write(advise(read.Value.Case, priors, cancellation), read.Value.Case, json);
            }
            else
            {
                WriteError(json, string.Join(" | ", read.Lines()), read.Problems);
            }
        }
    }

    private static void Write(ArrayBufferWriter<byte> output, Action<Utf8JsonWriter> write)
    {
        using Utf8JsonWriter json = new(output, Shell.JsonLineForm);
        write(json);
    }

    private static void WriteError(Utf8JsonWriter json, string message, IReadOnlyList<Problem> problems)
    {
        json.WriteStartObject();
        json.WriteString("error", message);
        json.WriteStartArray("problems");
        foreach (Problem problem in problems)
        {
            json.WriteStartObject();
            json.WriteString("place", problem.Place);
            json.WriteString("message", problem.Message);
            json.WriteString("allowed", problem.Allowed);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private sealed class AdviceResult(Advice advice, ServiceCase serviceCase) : CommandResult
    {
        public override void WriteText(TextWriter text) => AdviceText.Write(advice, serviceCase, text);

        public override void WriteJson(Utf8JsonWriter json) => AdviceJson.Write(advice, serviceCase, json);
    }
}
