namespace Swardloop.Cli.Commands;

/// <summary>Stands in help for a command of the server program and says how to start it.</summary>
internal sealed class ServerProgramCommand(CommandSyntax syntax) : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax { get; } = syntax;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call) => throw call.Wrong(
        Syntax.Name, "is a command of the server program, which this program does not hold", $"./swardloop {Syntax.Name} in the repository, or swardloop-server {Syntax.Name}");
}
