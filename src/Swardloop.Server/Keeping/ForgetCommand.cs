using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Storage.Keeping;

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
        int count = new Forgetting(databases, engine, new(), turn, TimeProvider.System).ForgetAsync(owner, "the server's keeper", cancellation).GetAwaiter().GetResult()
            ?? throw call.Wrong("OWNER", "there is no such owner", "an owner's id or whole name");
        return new KeepingResult($"{count} records lost what named the owner; backups made before still hold it", ("owner", owner.ToString()), ("records", count));
    }

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
}
