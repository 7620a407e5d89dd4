using System.Text;
using System.Text.Json;
using Swardloop.Trial.CaseBook;

namespace Swardloop.Cli.Commands;

/// <summary><c>swardloop trial --casebook</c>: what the advice says to each situation of the case book, and which expectation it does not meet.</summary>
internal static class CaseBookTrial
{
    /// <summary>Advice as the command line gives it: <c>advise - --json</c>, in this process.</summary>
    /// <param name="caseJson">A case with its yard inside.</param>
    /// <exception cref="FormatException">The case is refused, with the reason.</exception>
    public static string Advise(string caseJson)
    {
        using MemoryStream input = new(Encoding.UTF8.GetBytes(caseJson)), output = new(), error = new();
        int exitCode = Shell.Run(["advise", "-", "--json"], new Terminal(() => input, () => output, () => error));
        return exitCode == Shell.Done
            ? Encoding.UTF8.GetString(output.ToArray())
            : throw new FormatException(Encoding.UTF8.GetString(error.ToArray()).Trim());
    }

    /// <summary>Judges the book, or the part of it with a text in its name.</summary>
    /// <exception cref="WrongInputException">There is no such book, or a page of it is wrong.</exception>
    public static CommandResult Run(Invocation call, string directory, string? part)
    {
        if (!Directory.Exists(directory))
        {
            throw call.Wrong("--casebook", $"\"{directory}\" is no directory", "a directory of pages like 01-dark-station.md");
        }

        try
        {
            string list = Path.Combine(directory, NotYetList.FileName);
            IReadOnlyDictionary<string, DateOnly> notYet = NotYetList.Read(File.Exists(list) ? File.ReadAllText(list) : "");
            CancellationToken cancellation = call.Terminal.OnCancel();
            List<Verdict> verdicts = [];
            foreach (Situation situation in Situation.ReadAll(directory).Where(situation => situation.Slug.Contains(part ?? "", StringComparison.Ordinal)))
            {
                cancellation.ThrowIfCancellationRequested();
                verdicts.Add(Judge.Of(situation, Advise));
            }

            return new BookResult(verdicts, notYet);
        }
        catch (FormatException fault)
        {
            throw call.Wrong("--casebook", fault.Message, "pages as the case book's README says");
        }
    }

    private sealed class BookResult(IReadOnlyList<Verdict> verdicts, IReadOnlyDictionary<string, DateOnly> notYet) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (Verdict verdict in verdicts)
            {
                text.WriteLine($"{(verdict.Passed ? "pass" : "fail")}  {verdict.Situation.Slug}{(verdict.Stance is null ? "" : $" ({verdict.Stance})")}{Mark(verdict)}");
                if (verdict.Passed)
                {
                    continue;
                }

                Lines(text, "missed ", verdict.Failures);
                Lines(text, "causes ", verdict.Causes.Count > 0 ? [string.Join(", ", verdict.Causes)] : []);
                Lines(text, "next   ", verdict.Next);
                Lines(text, "played ", verdict.Played);
            }

            text.WriteLine($"{verdicts.Count(verdict => verdict.Passed)} of {verdicts.Count} situations pass, {verdicts.Count(verdict => verdict.Stance == "good")} first steps good, {verdicts.Count(verdict => verdict.Stance == "acceptable")} acceptable");
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartArray();
            foreach (Verdict verdict in verdicts)
            {
                json.WriteStartObject();
                json.WriteString("situation", verdict.Situation.Slug);
                json.WriteString("title", verdict.Situation.Title);
                json.WriteBoolean("passed", verdict.Passed);
                json.WriteBoolean("listedAsNotYet", notYet.ContainsKey(verdict.Situation.Slug));
                json.WriteString("firstStep", verdict.Stance);
                List(json, "missed", verdict.Failures);
                List(json, "causes", verdict.Causes);
                List(json, "next", verdict.Next);
                List(json, "played", verdict.Played);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        private string Mark(Verdict verdict) => (verdict.Passed, notYet.ContainsKey(verdict.Situation.Slug)) switch
        {
            (true, true) => ", strike it from " + NotYetList.FileName,
            (false, true) => ", not yet",
            (false, false) => ", and not on " + NotYetList.FileName,
            _ => "",
        };

        private static void Lines(TextWriter text, string heading, IReadOnlyList<string> lines)
        {
            for (int line = 0; line < lines.Count; line++)
            {
                text.WriteLine($"      {(line == 0 ? heading : "       ")} {lines[line]}");
            }
        }

        private static void List(Utf8JsonWriter json, string property, IReadOnlyList<string> lines)
        {
            json.WriteStartArray(property);
            foreach (string line in lines)
            {
                json.WriteStringValue(line);
            }

            json.WriteEndArray();
        }
    }
}
