using Swardloop.Cli.Commands;
using Swardloop.Core.Diagnosis;

namespace Swardloop.Cli;

/// <summary>The commands by name. Only the one that is called is made.</summary>
internal static class CommandList
{
    /// <summary>Every name, in the order that help shows.</summary>
    public static IReadOnlyList<string> Names { get; } =
        ["advise", "learn", "budget", "reach", "run", "forecast", "sheet", "calibrate", "survey", "plan", "import", "export", "steps", "trial", "practice",
            .. ServerSyntax.Commands.Select(command => command.Name)];

    /// <summary>The command of that name, or null.</summary>
    public static ICommand? Find(string name) => name switch
    {
        "advise" => new AdviseCommand(Advisor.Advise),
        "budget" => new BudgetCommand(),
        "calibrate" => new CalibrateCommand(),
        "forecast" => new ForecastCommand(),
        "import" => new ImportCommand(),
        "export" => new ExportCommand(),
        "learn" => new LearnCommand(Advisor.Advise),
        "plan" => new PlanCommand(),
        "practice" => new PracticeCommand(),
        "reach" => new ReachCommand(),
        "run" => new RunCommand(),
        "sheet" => new SheetCommand((serviceCase, priors) => Advisor.Advise(serviceCase, priors)),
        "steps" => new StepsCommand(),
        "survey" => new SurveyCommand(),
        "trial" => new TrialCommand(),
        _ => ServerSyntax.Commands.FirstOrDefault(command => command.Name == name) is { } syntax ? new ServerProgramCommand(syntax) : null,
    };
}
