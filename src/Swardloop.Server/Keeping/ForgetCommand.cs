using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Keeping;

/// <summary><c>swardloop forget</c>.</summary>
internal sealed class ForgetCommand : ICommand
{
    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.Forget;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CancellationToken cancellation = call.Terminal.OnCancel();
        (IDatabaseEngine engine, PooledDbContextFactory<WorkshopDatabase> databases) = WorkshopPlace.Of(call).OpenExistingAsync(cancellation).GetAwaiter().GetResult();
        Guid owner = Find(call, databases);
        using WriteTurn turn = new();
        Forgetting forgetting = new(databases, engine, new(), turn, TimeProvider.System);
        if (!call.Flag("--yes"))
        {
            return new Shown(forgetting.PreviewAsync(owner, cancellation).GetAwaiter().GetResult() ?? throw NoOwner(call));
        }

        string[] keep = (call.Value("--keep") ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        ForgetReport report = forgetting.ForgetAsync(owner, keep, "the server's keeper", cancellation).GetAwaiter().GetResult() ?? throw NoOwner(call);
        string beside = report.Files.Count == 0 ? "" : $"; beside the database, {string.Join(", ", report.Files)} may hold it too";
        return new KeepingResult(
            $"{report.Texts} texts of {report.Records} records emptied, {report.Photos} photos deleted, {report.Links} links closed, {report.Kept} texts kept; backups made before {report.At:yyyy-MM-dd HH:mm} UTC still hold all of it: delete them, or forget the owner again after restoring one{beside}",
            ("owner", owner.ToString()), ("records", report.Records), ("texts", report.Texts), ("photos", report.Photos), ("links", report.Links), ("kept", report.Kept), ("files", string.Join(", ", report.Files)));
    }

    private static WrongInputException NoOwner(Invocation call) => call.Wrong("OWNER", "there is no such owner", "an owner's id or whole name");

    private static Guid Find(Invocation call, PooledDbContextFactory<WorkshopDatabase> databases)
    {
        string named = call.Positionals[0];
        if (Guid.TryParse(named, out Guid id))
        {
            return id;
        }

        using WorkshopDatabase database = databases.CreateDbContext();
        List<Guid> owners = database.Owners.AsNoTracking().Where(owner => owner.Name == named).Select(owner => owner.Owner).ToList();
        return owners.Count == 1
            ? owners[0]
            : throw call.Wrong("OWNER", owners.Count == 0 ? $"there is no owner {SafeText.Quoted(named)}" : $"{owners.Count} owners have this name: {string.Join(", ", owners)}", "an owner's id or whole name");
    }

    /// <summary>What would go; nothing went.</summary>
    private sealed class Shown(ForgetPreview preview) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (ForgetText one in preview.Texts)
            {
                text.WriteLine($"{one.Key}{(one.Path.Length > 0 ? " " + SafeText.OneLine(one.Path, 60) : "")}: {SafeText.OneLine(one.Text, 120)}{(one.IsElsewhere ? " (in another yard)" : "")}{(one.MayStay ? "" : " (always)")}");
            }

            text.WriteLine($"{preview.Texts.Count} texts and {preview.Photos} photos would go and {preview.Links} links be closed; nothing is erased yet. To erase: --yes, with --keep for what names nobody.");
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteStartArray("texts");
            foreach (ForgetText one in preview.Texts)
            {
                json.WriteStartObject();
                json.WriteString("key", one.Key);
                json.WriteString("path", one.Path);
                json.WriteString("text", one.Text);
                json.WriteBoolean("mayStay", one.MayStay);
                json.WriteBoolean("isElsewhere", one.IsElsewhere);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("photos", preview.Photos);
            json.WriteNumber("links", preview.Links);
            json.WriteEndObject();
        }
    }
}
