using System.IO.Compression;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Storage;

namespace Swardloop.Server.Keeping;

/// <summary><c>swardloop export --everything</c>.</summary>
internal sealed class ExportEverythingCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.ExportEverything;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CancellationToken cancellation = call.Terminal.OnCancel();
        string into = call.Value("--into") ?? throw call.Wrong("--into", "is missing", Syntax.Usage);
        if (Directory.Exists(into) && Directory.EnumerateFileSystemEntries(into).Any())
        {
            throw call.Wrong("--into", $"{SafeText.Quoted(into)} is not empty", "a folder that is empty or not there yet");
        }

        (IDatabaseEngine engine, PooledDbContextFactory<WorkshopDatabase> databases) = WorkshopPlace.Of(call).OpenExistingAsync(cancellation).GetAwaiter().GetResult();
        try
        {
            using FileStream file = new(Path.GetTempFileName(), FileMode.Create, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose);
            using WorkshopDatabase database = databases.CreateDbContext();
            (int count, IReadOnlyList<OpenFiles.LeftOut> leftOut) = OpenFiles.WriteAsync(engine, database, file, cancellation).GetAwaiter().GetResult();
            file.Position = 0;
            Durable.MakeFolder(into);
            ZipFile.ExtractToDirectory(file, into);
            string missing = leftOut.Count == 0 ? "" : $"; {leftOut.Count} record{(leftOut.Count == 1 ? "" : "s")} could not be written as a file and stand{(leftOut.Count == 1 ? "s" : "")} in report.json";
            return new KeepingResult($"{count} files are in {into}{missing}", ("folder", Path.GetFullPath(into)), ("files", count), ("leftOut", leftOut.Count));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new WrongInputException(into, "", $"cannot be written: {fault.Message.TrimEnd('.')}", "a folder that you may write to, with room");
        }
    }
}
