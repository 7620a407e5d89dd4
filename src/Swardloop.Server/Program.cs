using Swardloop.Cli;
using Swardloop.Server.Serving;

return Shell.Run(args, Terminal.OfProcess(), ServerCommands.Find);
