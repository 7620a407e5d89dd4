using System.Text.Json;

namespace Swardloop.Cli;

/// <summary>How to call the program, or one command of it.</summary>
internal sealed class HelpResult(CommandSyntax? syntax = null) : CommandResult
{
    /// <inheritdoc/>
    public override void WriteText(TextWriter text)
    {
        if (syntax is null)
        {
            WriteCommands(text);
        }
        else
        {
            WriteCommand(text, syntax);
        }
    }

    /// <inheritdoc/>
    public override void WriteJson(Utf8JsonWriter json) => throw new InvalidOperationException("Help has a form for people only.");

    private static void WriteCommands(TextWriter text)
    {
        text.WriteLine("Swardloop: yards, their loops, and the next step to a running mower.");
        text.WriteLine();
        foreach (string name in CommandList.Names)
        {
            CommandSyntax command = CommandList.Find(name)!.Syntax;
            text.WriteLine($"  {command.Usage}");
            text.WriteLine($"      {command.Summary}");
        }

        text.WriteLine();
        text.WriteLine("--json prints the form for machines; - as a file reads standard input.");
        text.WriteLine("--version prints the version; completion bash prints what bash needs: source <(swardloop completion bash)");
        text.WriteLine("Exit codes: 0 done, 2 the arguments or a file are wrong, 1 anything else.");
    }

    private static void WriteCommand(TextWriter text, CommandSyntax syntax)
    {
        text.WriteLine(syntax.Usage);
        text.WriteLine(syntax.Summary);
        text.WriteLine();
        foreach (PositionalSyntax positional in syntax.Positionals)
        {
            text.WriteLine($"  {positional.Name,-18} {positional.Help}");
        }

        foreach (OptionSyntax option in syntax.Options)
        {
            text.WriteLine($"  {option.Shown,-18} {option.Help}");
        }

        text.WriteLine($"  {"--json",-18} Print the form for machines.");
    }
}
