using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;

namespace Swardloop.Server.Keeping;

/// <summary><c>swardloop restore</c>.</summary>
internal sealed class RestoreCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.Restore;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CancellationToken cancellation = call.Terminal.OnCancel();
        string name = call.Positionals[0];
        try
        {
            using FileStream file = File.OpenRead(name);
            (IDatabaseEngine engine, BackupManifest manifest) = WorkshopPlace.Of(call)
                .FillAsync(database => Restoring.RestoreAsync(database, file, cancellation), cancellation).GetAwaiter().GetResult();
            return new KeepingResult(
                $"{manifest.LastVersion} changes, {manifest.Accounts} accounts and {manifest.Photos} photos are restored and compared (data: {engine.Place})",
                ("place", engine.Place), ("changes", manifest.LastVersion), ("accounts", manifest.Accounts), ("photos", manifest.Photos));
        }
        catch (InvalidDataException fault)
        {
            throw new WrongInputException(name, "", fault.Message, "a whole backup by swardloop backup, and an empty place");
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new WrongInputException(name, "", $"cannot be read: {fault.Message.TrimEnd('.')}", "a backup by swardloop backup");
        }
    }
}
