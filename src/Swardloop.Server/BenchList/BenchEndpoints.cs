using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using Swardloop.Server.Accounts;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.BenchList;

/// <summary>Today's work.</summary>
internal static class BenchEndpoints
{
    /// <summary>Adds the endpoint.</summary>
    public static void MapBench(this RouteGroupBuilder api) =>
        api.MapGet("bench", BenchAsync).RequireAuthorization(Rule.Read).Produces<Bench>().Produces(StatusCodes.Status304NotModified);

    // Whoever names the tag of the list they have, and has the newest, gets 304 instead of the same again.
    private static async Task<FileContentHttpResult> BenchAsync(BenchReader reader, CancellationToken cancellation)
    {
        (ReadOnlyMemory<byte> utf8, string tag) = await reader.ReadAsync(cancellation);
        return TypedResults.Bytes(utf8, "application/json; charset=utf-8", entityTag: new EntityTagHeaderValue($"\"{tag}\""));
    }
}
