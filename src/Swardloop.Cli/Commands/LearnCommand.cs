using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Words;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop learn</c>: counts a workshop's closed cases per cause, for <c>advise --priors</c>.</summary>
internal sealed class LearnCommand(Func<ServiceCase, CausePriors, CancellationToken, Advice> advise) : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = new("learn", "Count closed cases per cause into a priors file; each case counts once.")
    {
        Positionals = [new("CASE", "Case files; open ones are passed over.") { Repeats = true }],
        Options = [new("--into", "FILE", "The priors file; made when it is not there.")],
    };

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        string path = call.Value("--into") ?? throw call.Wrong("--into", "is missing", Syntax.Usage);
        CancellationToken cancellation = call.Terminal.OnCancel();
        List<(string Name, CaseFile File)> cases = [.. call.Positionals.Select(name => (name, ReadCase(name, call.Terminal)))];

        using IDisposable alone = Alone(path);
        PriorsFile before = File.Exists(path) ? ReadPriors(path, call.Terminal) : PriorsFile.Empty;
        PriorsFile after = before;
        List<Learnt> learnt = [];
        foreach ((string name, CaseFile file) in cases)
        {
            if (after.Knows(file.Digest))
            {
                learnt.Add(new(name, null, "counted before"));
            }
            else if (ClosedCase.CauseOf(file.Case, earlier => advise(earlier, CausePriors.Default, cancellation)) is { } kind)
            {
                after = after.With(file.Digest, new Cause(kind));
                learnt.Add(new(name, new Cause(kind), null));
            }
            else
            {
                learnt.Add(new(name, null, "still open: no mower-check that runs after a repair"));
            }
        }

        if (!ReferenceEquals(after, before) || !File.Exists(path))
        {
            Replace(path, after.ToUtf8());
        }

        return new LearnResult(path, learnt, after);
    }

    private static CaseFile ReadCase(string name, Terminal terminal)
    {
        Checked<CaseFile> read = CaseFiles.Read(InputText.Read(name, terminal), terminal);
        return read.IsGood ? read.Value : throw new WrongInputException(string.Join(" | ", read.Lines()));
    }

    private static PriorsFile ReadPriors(string path, Terminal terminal)
    {
        InputText input = InputText.Read(path, terminal);
        Checked<PriorsFile> read = PriorsFile.Read(input.Bytes, input.Name);
        return read.IsGood ? read.Value : throw new WrongInputException(string.Join(" | ", read.Lines()));
    }

    /// <summary>Keeps a second learner away while the file is read and replaced: the later one would undo the earlier.</summary>
    private static FileStream Alone(string path)
    {
        try
        {
            return new(path + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or ArgumentException)
        {
            throw new WrongInputException(path, "", "cannot be written, or another learn is at it", "a file in a directory that you may write to");
        }
    }

    /// <summary>All of the new file or all of the old one, whatever happens in between.</summary>
    private static void Replace(string path, byte[] bytes)
    {
        string beside = $"{path}.{Environment.ProcessId}.new";
        try
        {
            using (FileStream file = new(beside, FileMode.Create, FileAccess.Write))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }

            File.Move(beside, path, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }
    }

    /// <summary>What came of one case.</summary>
    private sealed record Learnt(string Name, Cause? Cause, string? PassedOver);

    private sealed class LearnResult(string path, IReadOnlyList<Learnt> learnt, PriorsFile priors) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (Learnt one in learnt)
            {
                text.WriteLine($"{one.Name}: {(one.Cause is { } cause ? Phrasebook.English.Name(cause) : one.PassedOver)}");
            }

            text.WriteLine($"{path}: {Phrasebook.English.Number(priors.Counts.Values.Sum(), 2)} closed cases");
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteStartArray("cases");
            foreach (Learnt one in learnt)
            {
                json.WriteStartObject();
                json.WriteString("case", one.Name);
                json.WriteString("cause", one.Cause is { } cause ? WireName.Of(cause) : null);
                json.WriteString("passedOver", one.PassedOver);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartObject("counts");
            foreach ((string cause, double count) in priors.Counts)
            {
                json.WriteNumber(cause, count);
            }

            json.WriteEndObject();
            json.WriteEndObject();
        }
    }
}
