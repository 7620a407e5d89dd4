namespace Swardloop.Server.Serving;

/// <summary>What a browser may do with our pages: run our own scripts and nothing else, load nothing from elsewhere, show in no frame.</summary>
internal static class SecurityHeaders
{
    // 'wasm-unsafe-eval' lets WebAssembly be compiled, and only that. Attributes of style carry widths of bars and the like.
    private const string Policy =
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; style-src-attr 'unsafe-inline'; img-src 'self' data: blob:; "
        + "worker-src 'self'; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'";

    /// <summary>Adds the headers to every answer.</summary>
    public static Task AddAsync(HttpContext context, RequestDelegate next)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(self), geolocation=(self), microphone=()";
        if (context.Request.IsHttps)
        {
            headers.StrictTransportSecurity = "max-age=31536000";
        }

        if (context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal))
        {
            headers.CacheControl = "no-store";
        }

        return next(context);
    }
}
