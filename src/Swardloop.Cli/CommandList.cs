using Swardloop.Cli.Commands;

namespace Swardloop.Cli;

/// <summary>The commands by name. Only the one that is called is made.</summary>
internal static class CommandList
{
    /// <summary>Every name, in the order that help shows.</summary>
    public static IReadOnlyList<string> Names { get; } = ["budget", "calibrate", "import", "export", "steps", "trial"];

    /// <summary>The command of that name, or null.</summary>
    public static ICommand? Find(string name) => name switch
    {
        "budget" => new BudgetCommand(),
        "calibrate" => new CalibrateCommand(),
        "import" => new ImportCommand(),
        "export" => new ExportCommand(),
        "steps" => new StepsCommand(),
        "trial" => new TrialCommand(),
        _ => null,
    };
}
