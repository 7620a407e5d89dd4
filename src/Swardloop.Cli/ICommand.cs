namespace Swardloop.Cli;

/// <summary>One command: what it takes and what it does. One file per command, in Commands.</summary>
internal interface ICommand
{
    /// <summary>What it takes.</summary>
    CommandSyntax Syntax { get; }

    /// <summary>Does it. Everything that can go wrong goes wrong here, before anything is printed.</summary>
    /// <exception cref="WrongInputException">The arguments or a file are wrong.</exception>
    CommandResult Run(Invocation call);
}
