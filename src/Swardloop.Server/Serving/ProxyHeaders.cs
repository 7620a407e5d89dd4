using System.Net;
using Microsoft.AspNetCore.HttpOverrides;

namespace Swardloop.Server.Serving;

/// <summary>What a reverse proxy says of a request: from where it came, by which scheme and under which name. Cookies are Secure, browsers are told to stay
/// with HTTPS, limits count each client by itself, and a page's own posts come from the page's own address, because of it.</summary>
internal static class ProxyHeaders
{
    /// <summary>Takes the headers from these addresses, and from nobody else: whoever may write them chooses an address for each guess.</summary>
    public static ForwardedHeadersOptions From(IReadOnlyList<IPAddress> proxies)
    {
        ForwardedHeadersOptions options = new()
        {
            ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost,
            // Only the last entry is the proxy's own; what stands before it the client may have written.
            ForwardLimit = 1,
        };
        options.KnownIPNetworks.Clear();
        options.KnownProxies.Clear();
        foreach (IPAddress proxy in proxies)
        {
            options.KnownProxies.Add(proxy);
        }

        return options;
    }
}
