using System.Text.Json;

namespace Swardloop.Cli;

/// <summary>What a command found, in two forms of which the shell prints exactly one.</summary>
internal abstract class CommandResult
{
    /// <summary>The exit code when it is printed: 0, unless the command did its work and yet has to report failure.</summary>
    public virtual int ExitCode => 0;

    /// <summary>The form for people: short lines, numbers with unit and uncertainty.</summary>
    public abstract void WriteText(TextWriter text);

    /// <summary>The form for machines: one JSON value, as the contract says.</summary>
    public abstract void WriteJson(Utf8JsonWriter json);
}
