using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Swardloop.Storage.Postgres;

/// <summary>Lets <c>dotnet ef migrations add</c> make the context.</summary>
internal sealed class DesignTime : IDesignTimeDbContextFactory<WorkshopDatabase>
{
    /// <inheritdoc/>
    public WorkshopDatabase CreateDbContext(string[] args)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        new PostgresEngine("Host=localhost").Configure(options);
        return new(options.Options);
    }
}
