using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Input;

[Collection(HeapIsMeasured.Name)]
public sealed class FuzzTests
{
    private static readonly string[] Nasty =
    [
        "null", "true", "0", "-1", "1e400", "1e308", "\"\"", "\"\\u0000\"", "\"\\ud800\"", "[]", "{}", "[[[[[[[[]]]]]]]]", "\"2026-02-30\"", "\"9999-12-31T23:59:59+14:00\"",
        "\"00000000-0000-0000-0000-000000000000\"", "{\"a\":{\"b\":[1,{\"c\":null}]}}", "\"'; DROP TABLE Records; --\"", "\"<script>\"", "\"\\u202e\"", "123456789012345678901234567890",
    ];

    /// <summary>Every call of the API's own description, with every kind of wrong path, query and body: never a fault of the server, always a plain reason.</summary>
    [Fact]
    public async Task Whatever_is_sent_is_answered_with_a_plain_reason()
    {
        int count = Environment.GetEnvironmentVariable("SWARDLOOP_LONG") == "1" ? 100_000 : 5_000;
        int seed = Environment.GetEnvironmentVariable("SWARDLOOP_SEED") is { } given ? int.Parse(given, System.Globalization.CultureInfo.InvariantCulture) : 20260514;
        Random random = new(seed);
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        using HttpClient nobody = served.Client();
        Guid yard = Guid.CreateVersion7(), @case = Guid.CreateVersion7(), owner = Guid.CreateVersion7();
        await principal.KeepAsync(Made.Owner(owner), Made.Yard(yard, owner), Made.Case(@case, yard));
        JsonNode description = JsonNode.Parse(await principal.GetStringAsync("/openapi/v1.json"))!;
        (string Method, string Path, JsonNode Call)[] calls =
        [
            .. description["paths"]!.AsObject().SelectMany(path => path.Value!.AsObject().Select(call => (call.Key.ToUpperInvariant(), path.Key, call.Value!)))
                .Where(call => call.Item2.StartsWith("/api/", StringComparison.Ordinal)),
        ];
        Assert.True(calls.Length > 25, $"the description has only {calls.Length} calls");

        long before = 0;
        int refused = 0;
        for (int i = 0; i < count; i++)
        {
            (string method, string path, JsonNode call) = calls[i % calls.Length];
            string url = System.Text.RegularExpressions.Regex.Replace(path, @"\{[^}]*\}", _ => Pick<string>(random, yard.ToString(), @case.ToString(), Guid.CreateVersion7().ToString(), "x", "%C3", "..%2f"));
            url += Pick(random, "", "?since=-1", "?since=99999999999999999999", "?limit=0", "?q=%00", "?q=" + new string('a', random.Next(300)), "?size=huge", "?priors=own", "?%FF=%FE");
            using HttpRequestMessage request = new(new(method), new Uri(url, UriKind.Relative));
            if (method is "POST" or "PUT")
            {
                request.Content = Body(random, Schema(description, call));
            }

            // Signing out, or one's password changed, would end the fuzzing of the rest.
            HttpClient client = path is "/api/sign-out" or "/api/me/password" || random.Next(20) == 0 ? nobody : principal;
            using HttpResponseMessage answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
            int status = (int)answer.StatusCode;
            string what = $"seed {seed}, request {i}: {method} {url} answered {status}";
            Assert.True(status < 500, what);
            if (status >= 400)
            {
                refused++;
                Assert.True(answer.Content.Headers.ContentType?.MediaType == "application/problem+json", what);
                JsonNode problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync())!;
                Assert.True(problem["detail"]!.GetValue<string>().Length > 5 && problem["status"]!.GetValue<int>() == status, what);
            }

            if (i == count / 5)
            {
                before = GC.GetTotalMemory(forceFullCollection: true);
            }
        }

        Assert.True(refused > count / 3, $"only {refused} of {count} were wrong");
        long grown = GC.GetTotalMemory(forceFullCollection: true) - before;
        Assert.True(grown < 32 << 20, $"memory grew by {grown >> 20} MiB");
    }

    private static JsonNode? Schema(JsonNode description, JsonNode call) => Resolved(
        description, call["requestBody"]?["content"]?.AsObject().Select(content => content.Value?["schema"]).FirstOrDefault());

    private static JsonNode? Resolved(JsonNode description, JsonNode? schema) =>
        schema?["$ref"] is { } reference ? description["components"]!["schemas"]![reference.GetValue<string>().Split('/')[^1]] : schema;

    private static ByteArrayContent Body(Random random, JsonNode? schema)
    {
        string json = random.Next(6) switch
        {
            0 => Pick(random, Nasty),
            1 => "{\"changes\":[" + string.Join(',', Enumerable.Range(0, random.Next(4)).Select(_ => ChangeLike(random))) + "]}",
            2 => Pick(random, "", "{", "{\"a\":1,\"a\":2}", new string('[', 5000), "{} {}", "\ufeff{}", "nul"),
            _ => Object(random, schema?["properties"]?.AsObject().Select(property => property.Key).ToArray() ?? ["a", "b"]),
        };
        byte[] bytes = Encoding.UTF8.GetBytes(json);
        if (random.Next(12) == 0 && bytes.Length > 2)
        {
            bytes[random.Next(bytes.Length)] = (byte)random.Next(256);
        }

        ByteArrayContent content = new(bytes);
        string? type = Pick(random, "application/json", "application/json", "application/json", "application/json", "application/json; charset=utf-8", "text/plain", "image/jpeg", null);
        content.Headers.ContentType = type is null ? null : MediaTypeHeaderValue.Parse(type);
        return content;
    }

    private static string ChangeLike(Random random) => Object(random, ["id", "kind", "record", "set", "seen", "madeAt"], new()
    {
        ["id"] = $"\"{Guid.CreateVersion7()}\"",
        ["record"] = $"\"{Guid.CreateVersion7()}\"",
        ["kind"] = $"\"{Pick(random, "owner", "yard", "case", "observation", "visit", "instrument", "conductor", "profile", "rates", "code", "photo", "workshop", "owner-link")}\"",
        ["madeAt"] = "\"2026-05-14T09:30:00+02:00\"",
        ["seen"] = "{}",
        ["set"] = Object(random, ["name", "file", "yard", "case", "reading", "on", "at", "state", "phone", "note", "percent", "position", "bench", "can", "of", "archived"]),
    });

    private static string Object(Random random, string[] names, Dictionary<string, string>? good = null)
    {
        IEnumerable<string> members = names.Where(_ => random.Next(8) > 0)
            .Select(name => $"\"{name}\":{(good is not null && random.Next(10) > 0 ? good[name] : Pick(random, Nasty))}");
        return "{" + string.Join(',', members) + "}";
    }

    private static T Pick<T>(Random random, params T[] from) => from[random.Next(from.Length)];
}
