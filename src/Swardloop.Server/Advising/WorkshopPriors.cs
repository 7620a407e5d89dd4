using Microsoft.EntityFrameworkCore;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Advising;
using Swardloop.Model.Cases;
using Swardloop.Storage;

namespace Swardloop.Server.Advising;

/// <summary>What the workshop's closed cases had: counts per cause.</summary>
internal sealed class WorkshopPriors(IDbContextFactory<WorkshopDatabase> databases)
{
    /// <summary>The counts as a file; each case counts once.</summary>
    public async Task<PriorsFile> FileAsync(CancellationToken cancellation)
    {
        await using WorkshopDatabase database = await databases.CreateDbContextAsync(cancellation);
        var closed = await database.Cases.AsNoTracking().Where(line => !line.IsOpen && line.FoundCause != null && line.Digest != null)
            .OrderBy(line => line.Case).Select(line => new { line.Digest, line.FoundCause }).ToListAsync(cancellation);
        return PriorsFile.Of(Known());

        IEnumerable<(string, Cause)> Known()
        {
            foreach (var one in closed)
            {
                if (WireName.TryReadCause(one.FoundCause!, out Cause cause))
                {
                    yield return (one.Digest!, cause);
                }
            }
        }
    }
}
