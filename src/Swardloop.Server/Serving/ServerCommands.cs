using Swardloop.Cli;
using Swardloop.Server.Keeping;
using Swardloop.Server.Watching;

namespace Swardloop.Server.Serving;

/// <summary>The server program's commands by name.</summary>
internal static class ServerCommands
{
    /// <summary>The command of that name, or null.</summary>
    public static ICommand? Find(string name) => name switch
    {
        "serve" => new ServeCommand(),
        "backup" => new BackupCommand(),
        "restore" => new RestoreCommand(),
        "export" => new ExportEverythingCommand(),
        "forget" => new ForgetCommand(),
        "screen" => new ScreenCommand(),
        "people" => new Accounts.PeopleCommand(),
        _ => null,
    };
}
