using Swardloop.Cli;

return Shell.Run(args, Terminal.OfProcess());
