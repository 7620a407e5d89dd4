using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;

namespace Swardloop.Server.Keeping;

/// <summary><c>swardloop backup</c>.</summary>
internal sealed class BackupCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.Backup;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CancellationToken cancellation = call.Terminal.OnCancel();
        string path = Path.GetFullPath(call.Positionals[0]), beside = $"{path}.{Environment.ProcessId}.new";
        (IDatabaseEngine engine, PooledDbContextFactory<WorkshopDatabase> databases) = WorkshopPlace.Of(call).OpenExistingAsync(cancellation).GetAwaiter().GetResult();
        try
        {
            BackupManifest manifest;
            using (FileStream file = Durable.NewFile(beside))
            {
                using WorkshopDatabase database = databases.CreateDbContext();
                manifest = Backup.WriteAsync(engine, database, file, TimeProvider.System.GetUtcNow(), cancellation).GetAwaiter().GetResult();
                file.Flush(flushToDisk: true);
            }

            // All of the new backup or all of an old one of that name.
            Durable.Rename(beside, path);
            return new KeepingResult(
                $"{manifest.LastVersion} changes, {manifest.Accounts} accounts and {manifest.Photos} photos are in {call.Positionals[0]}",
                ("file", path), ("changes", manifest.LastVersion), ("accounts", manifest.Accounts), ("photos", manifest.Photos));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new WrongInputException(call.Positionals[0], "", $"cannot be written: {fault.Message.TrimEnd('.')}", "a file in a folder that you may write to, with room");
        }
        finally
        {
            File.Delete(beside);
        }
    }
}
