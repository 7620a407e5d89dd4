using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Swardloop.Storage.Sqlite;

/// <summary>Lets <c>dotnet ef migrations add</c> make the context.</summary>
internal sealed class DesignTime : IDesignTimeDbContextFactory<WorkshopDatabase>
{
    /// <inheritdoc/>
    public WorkshopDatabase CreateDbContext(string[] args)
    {
        DbContextOptionsBuilder<WorkshopDatabase> options = new();
        new SqliteEngine("design.db").Configure(options);
        return new(options.Options);
    }
}
