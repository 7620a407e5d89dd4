using Microsoft.AspNetCore.Http.HttpResults;
using Swardloop.Server.Accounts;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.BenchList;

/// <summary>Today's work.</summary>
internal static class BenchEndpoints
{
    /// <summary>Adds the endpoint.</summary>
    public static void MapBench(this RouteGroupBuilder api) =>
        api.MapGet("bench", BenchAsync).RequireAuthorization(Rule.Read).Produces<Bench>();

    private static async Task<FileContentHttpResult> BenchAsync(BenchReader reader, CancellationToken cancellation) =>
        TypedResults.Bytes(await reader.ReadAsync(cancellation), "application/json; charset=utf-8");
}
