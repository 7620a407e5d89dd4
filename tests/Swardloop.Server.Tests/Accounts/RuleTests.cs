using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Accounts;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Accounts;

/// <summary>Every endpoint says who may call it, and keeps to it.</summary>
public sealed class RuleTests
{
    /// <summary>Open to everybody, each for a reason: the page's own files; what one must call to get an account or a cookie; what tells an
    /// owner's page, which is opened by the secret in its address; and whether the server is well.</summary>
    private static readonly string[] Open =
    [
        "GET /api/me", "POST /api/first-account", "POST /api/sign-in", "POST /api/sign-out",
        "POST /api/passkeys/request-options", "POST /api/passkeys/sign-in", "GET /api/{*path}",
        "GET /o/{address}", "GET /o/{address}/{**rest}", "POST /o/{address}/answer", "POST /o/{address}/cannot", "POST /o/{address}/photo",
        "GET,HEAD {*path:nonfile}", "GET /health",
    ];

    private static readonly string[] Rules = [Rule.Read, Rule.Write, Rule.Principal, Rule.SignedIn];

    [Fact]
    public async Task Every_endpoint_has_a_rule_or_stands_on_the_list_of_open_ones()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        List<string> open = [];
        foreach (RouteEndpoint endpoint in Endpoints(served))
        {
            string name = NameOf(endpoint);
            bool isOpen = endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null;
            string[] rules = [.. endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Select(rule => rule.Policy ?? "")];
            if (isOpen)
            {
                open.Add(name);
            }
            else
            {
                Assert.True(rules.Length > 0 && rules.All(rule => Rules.Contains(rule)), $"{name} has no rule of ours");
            }
        }

        Assert.Equal(Open.Order(StringComparer.Ordinal), open.Distinct().Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(null)]
    [InlineData(Role.Reader)]
    [InlineData(Role.Desk)]
    [InlineData(Role.Technician)]
    [InlineData(Role.Principal)]
    public async Task Every_role_is_let_in_where_it_may_and_nowhere_else(Role? role)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = role is { } some ? await served.AsAsync(some) : served.Client();
        int tried = 0;
        foreach (RouteEndpoint endpoint in Endpoints(served).Where(endpoint => endpoint.Metadata.GetMetadata<IAllowAnonymous>() is null))
        {
            string rule = endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>()[^1].Policy!;
            bool mayCome = rule switch
            {
                Rule.SignedIn or Rule.Read => role is not null,
                Rule.Write => role is Role.Desk or Role.Technician or Role.Principal,
                _ => role is Role.Principal,
            };
            string path = System.Text.RegularExpressions.Regex.Replace(endpoint.RoutePattern.RawText!, @"\{[^}]*\}", Guid.CreateVersion7().ToString());
            foreach (string method in endpoint.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods)
            {
                using HttpRequestMessage request = new(new(method), path);
                if (method is "POST" or "PUT")
                {
                    request.Content = new ByteArrayContent([]);
                    request.Content.Headers.ContentType = new(endpoint.Metadata.GetMetadata<Microsoft.AspNetCore.Http.Metadata.IAcceptsMetadata>()?.ContentTypes[0] ?? "application/json");
                }

                using CancellationTokenSource soon = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
                using HttpResponseMessage answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, soon.Token);
                HttpStatusCode refused = role is null ? HttpStatusCode.Unauthorized : HttpStatusCode.Forbidden;
                Assert.True((answer.StatusCode != refused) == mayCome, $"{role?.ToString() ?? "nobody"}: {method} {path} answered {(int)answer.StatusCode}");
                tried++;
            }
        }

        Assert.True(tried > 20);
    }

    private static IEnumerable<RouteEndpoint> Endpoints(Served served) => served.Services.GetServices<EndpointDataSource>()
        .SelectMany(source => source.Endpoints).OfType<RouteEndpoint>()
        // The page's files, whose addresses are as many as there are files, and what looks for them in a program that was not published.
        .Where(endpoint => endpoint.RoutePattern.RawText != "{**path:file}")
        .Where(endpoint => endpoint.Metadata.All(metadata => metadata.GetType().FullName?.Contains("StaticAssets", StringComparison.Ordinal) != true));

    private static string NameOf(RouteEndpoint endpoint)
    {
        IReadOnlyList<string> methods = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? [];
        string path = endpoint.RoutePattern.RawText ?? "";
        return $"{(methods.Count == 0 ? "*" : string.Join(",", methods))} {path.TrimEnd('/')}";
    }
}
