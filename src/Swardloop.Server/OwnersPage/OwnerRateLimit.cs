using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;

namespace Swardloop.Server.OwnersPage;

/// <summary>How often one place may ask for an owner's page: often enough for a household that answers as fast as it can, far too seldom for
/// guessing at 128 bits.</summary>
internal sealed class OwnerRateLimit : IRateLimiterPolicy<string>
{
    /// <summary>Requests a minute from one address.</summary>
    public const int RequestsPerMinute = 60;

    /// <inheritdoc/>
    public Func<OnRejectedContext, CancellationToken, ValueTask>? OnRejected => async (rejected, _) =>
    {
        HttpContext context = rejected.HttpContext;
        context.Response.Headers.RetryAfter = "60";
        await OwnerEndpoints.TooMany(context.Request).ExecuteAsync(context);
    };

    /// <inheritdoc/>
    public RateLimitPartition<string> GetPartition(HttpContext httpContext) => RateLimitPartition.GetFixedWindowLimiter(
        Accounts.ClientAddress.Of(httpContext),
        _ => new FixedWindowRateLimiterOptions { PermitLimit = RequestsPerMinute, Window = TimeSpan.FromMinutes(1) });
}
