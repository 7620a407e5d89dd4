using System.Text;

namespace Swardloop.Cli;

/// <summary>What a command takes. <c>--json</c> and <c>--help</c> are every command's own and are not listed.</summary>
/// <param name="Name">Its name as typed.</param>
/// <param name="Summary">What it does, in one line.</param>
internal sealed record CommandSyntax(string Name, string Summary)
{
    /// <summary>Arguments without a dash, in order; only the last may repeat or be left out.</summary>
    public IReadOnlyList<PositionalSyntax> Positionals { get; init; } = [];

    /// <summary>Arguments that start with two dashes.</summary>
    public IReadOnlyList<OptionSyntax> Options { get; init; } = [];

    /// <summary>The line that shows how to call it.</summary>
    public string Usage
    {
        get
        {
            StringBuilder usage = new($"swardloop {Name}");
            foreach (PositionalSyntax positional in Positionals)
            {
                string shown = positional.Name + (positional.Repeats ? " ..." : "");
                usage.Append(positional.Required ? $" {shown}" : $" [{shown}]");
            }

            foreach (OptionSyntax option in Options)
            {
                usage.Append($" [{option.Shown}]");
            }

            return usage.Append(" [--json]").ToString();
        }
    }
}

/// <summary>An argument without a dash.</summary>
/// <param name="Name">In capitals, as the usage line shows it.</param>
/// <param name="Help">What it is.</param>
internal sealed record PositionalSyntax(string Name, string Help)
{
    /// <summary>Whether it must be there.</summary>
    public bool Required { get; init; } = true;

    /// <summary>Whether there may be several.</summary>
    public bool Repeats { get; init; }
}

/// <summary>An argument that starts with two dashes.</summary>
/// <param name="Name">With its dashes.</param>
/// <param name="Value">What its value is called; null for a switch without one.</param>
/// <param name="Help">What it does, with its default.</param>
internal sealed record OptionSyntax(string Name, string? Value, string Help)
{
    /// <summary>Says of an option that may repeat which further arguments are its values too, so that
    /// <c>--at 1,2 3,4</c> takes both; null when it may stand only once.</summary>
    public Func<string, bool>? AnotherValue { get; init; }

    /// <summary>As the usage line shows it.</summary>
    public string Shown => Value is null ? Name : AnotherValue is null ? $"{Name} {Value}" : $"{Name} {Value} ...";
}
