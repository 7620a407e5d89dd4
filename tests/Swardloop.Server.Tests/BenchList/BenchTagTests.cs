using System.Net.Http.Headers;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.BenchList;

public sealed class BenchTagTests
{
    [Fact]
    public async Task Whoever_has_the_newest_list_is_not_sent_it_again()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        HttpResponseMessage first = await AskAsync(desk, null);
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);

        HttpResponseMessage again = await AskAsync(desk, first.Headers.ETag);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Equal(first.Headers.ETag, again.Headers.ETag);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync());

        await desk.KeepAsync(Made.Owner(Guid.CreateVersion7()));
        HttpResponseMessage changed = await AskAsync(desk, first.Headers.ETag);
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.NotEqual(first.Headers.ETag, changed.Headers.ETag);

        using HttpClient nobody = served.Client();
        Assert.Equal(HttpStatusCode.Unauthorized, (await AskAsync(nobody, changed.Headers.ETag)).StatusCode);
    }

    private static async Task<HttpResponseMessage> AskAsync(HttpClient client, EntityTagHeaderValue? known)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, "/api/bench");
        if (known is not null)
        {
            request.Headers.IfNoneMatch.Add(known);
        }

        return await client.SendAsync(request);
    }
}
