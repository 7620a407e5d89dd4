using Swardloop.Server.Input;
using Swardloop.Server.OwnersPage;

namespace Swardloop.Server.Serving;

/// <summary>Refuses changes that a page of another site asks for in a signed-in person's name. Browsers say where a request comes from
/// (<c>Sec-Fetch-Site</c>, <c>Origin</c>) and no page can make them lie; a program that is no browser says nothing and has no cookies of others.</summary>
internal static class OwnPagesOnly
{
    /// <summary>Lets reading through, and whatever comes from our own pages.</summary>
    public static Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        HttpRequest request = context.Request;
        // An owner's page is opened by its address, not by a cookie; and old browsers, told to name no referrer, name no origin either.
        if (request.Path.StartsWithSegments(OwnerEndpoints.Root) || HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method))
        {
            return next(context);
        }

        string? site = request.Headers["Sec-Fetch-Site"];
        string? origin = request.Headers.Origin;
        bool isOurs = site is { Length: > 0 }
            ? site is "same-origin" or "none"
            : origin is not { Length: > 0 } || string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
        return isOurs ? next(context) : Faults.WriteAsync(context, StatusCodes.Status403Forbidden, "The request comes from a page of another site.");
    }
}
