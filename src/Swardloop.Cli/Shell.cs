using System.Text.Encodings.Web;
using System.Text.Json;

namespace Swardloop.Cli;

/// <summary>Finds the command, runs it, prints its result in the one form that was asked for, and turns faults into exit codes.</summary>
internal static class Shell
{
    /// <summary>Done.</summary>
    public const int Done = 0;

    /// <summary>Anything else went wrong.</summary>
    public const int Failed = 1;

    /// <summary>The arguments or a file are wrong.</summary>
    public const int WrongInput = 2;

    // Room for all the problems of a hopeless file, and an end.
    private const int LongestComplaint = 8000;

    private static readonly JsonWriterOptions JsonForm = new()
    {
        Indented = true,
        NewLine = "\n",
        // The output is no web page: letters stay letters. Control characters and quotes are escaped all the same.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    internal static readonly JsonWriterOptions JsonLineForm = JsonForm with { Indented = false };

    /// <summary>Runs one call of the program.</summary>
    /// <returns>The exit code: 0 done, 2 the arguments or a file are wrong, 1 anything else.</returns>
    public static int Run(ReadOnlySpan<string> arguments, Terminal terminal) => Run(arguments, terminal, CommandList.Find);

    /// <summary>Runs one call of a program with commands of its own.</summary>
    /// <param name="arguments">As typed.</param>
    /// <param name="terminal">What is read and written.</param>
    /// <param name="find">The command of a name, or null.</param>
    /// <returns>The exit code: 0 done, 2 the arguments or a file are wrong, 1 anything else.</returns>
    public static int Run(ReadOnlySpan<string> arguments, Terminal terminal, Func<string, ICommand?> find)
    {
        try
        {
            return Dispatch(arguments, terminal, find);
        }
        catch (WrongInputException wrong)
        {
            Complain(terminal, wrong.Message);
            return WrongInput;
        }
        catch (OperationCanceledException)
        {
            Complain(terminal, "swardloop: stopped before the end");
            return Failed;
        }
#pragma warning disable CA1031 // The last line of defence: whatever happens, one line and exit code 1, never a stack trace.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            Complain(terminal, $"swardloop: failed: {fault.GetType().Name}: {fault.Message}");
            return Failed;
        }
    }

    private static int Dispatch(ReadOnlySpan<string> arguments, Terminal terminal, Func<string, ICommand?> find)
    {
        if (arguments is [] or ["--help"] or ["-h"] or ["help"])
        {
            return Print(new HelpResult(), json: false, terminal);
        }

        if (arguments is ["--version"] or ["version"])
        {
            terminal.Output.Write(System.Text.Encoding.UTF8.GetBytes($"swardloop {typeof(Shell).Assembly.GetName().Version!.ToString(3)}\n"));
            return Done;
        }

        if (arguments is ["completion"] or ["completion", "bash"])
        {
            terminal.Output.Write(System.Text.Encoding.UTF8.GetBytes(Completion.Bash()));
            return Done;
        }

        if (find(arguments[0]) is not { } command)
        {
            throw new WrongInputException("swardloop", SafeText.Quoted(arguments[0]),
                arguments[0].StartsWith('-') ? "unknown option" : "unknown command", string.Join(", ", CommandList.Names));
        }

        Invocation call = Invocation.Parse(command.Syntax, arguments[1..], terminal);
        return call.Help
            ? Print(new HelpResult(command.Syntax), json: false, terminal)
            : Print(command.Run(call), call.Json, terminal);
    }

    private static int Print(CommandResult result, bool json, Terminal terminal)
    {
        if (result is JsonLinesResult stream)
        {
            PrintLines(stream, terminal.Output);
        }
        else if (json)
        {
            using (Utf8JsonWriter writer = new(terminal.Output, JsonForm))
            {
                result.WriteJson(writer);
            }

            terminal.Output.WriteByte((byte)'\n');
        }
        else
        {
            using TextWriter text = Terminal.TextOnto(terminal.Output);
            result.WriteText(text);
        }

        terminal.Output.Flush();
        return result.ExitCode;
    }

    private static void PrintLines(JsonLinesResult stream, Stream output)
    {
        using MemoryStream line = new();
        using Utf8JsonWriter writer = new(line, JsonLineForm);
        foreach (Action<Utf8JsonWriter> write in stream.Lines)
        {
            write(writer);
            writer.Flush();
            line.WriteByte((byte)'\n');
            line.WriteTo(output);
            output.Flush();
            line.SetLength(0);
            writer.Reset();
        }
    }

    private static void Complain(Terminal terminal, string message)
    {
        using TextWriter error = Terminal.TextOnto(terminal.Error);
        error.WriteLine(SafeText.OneLine(message, LongestComplaint));
    }
}
