using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Serving;
using Swardloop.Storage;

namespace Swardloop.Server.Tests.Serving;

/// <summary>The examples in the API's description are true. SWARDLOOP_APPROVE=1 writes the answers in them anew: read the difference before committing it.</summary>
public sealed partial class ApiExampleTests
{
    private const string EventStream = "text/event-stream";

    private static string File => Repository.At("src/Swardloop.Server/Serving/api-examples.json");

    [Fact]
    public async Task Every_call_has_an_example_that_fits_its_description_and_is_answered_as_promised()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = served.Client();
        JsonNode description = JsonNode.Parse(await DescriptionAsync())!;
        JsonArray examples = ApiExamples.All();
        string[] calls = [.. description["paths"]!.AsObject()
            .SelectMany(path => path.Value!.AsObject().Select(call => $"{call.Key.ToUpperInvariant()} {path.Key}"))
            .Where(call => call.Contains(" /api/", StringComparison.Ordinal))];
        Assert.Equal(calls.Order(StringComparer.Ordinal), examples.Select(one => (string)one!["call"]!).Order(StringComparer.Ordinal));

        await using (WorkshopDatabase database = await served.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync())
        {
            string code = (string)examples.First(one => (string?)one!["call"] == "POST /api/first-account")!["request"]!["code"]!;
            await database.Mark.ExecuteUpdateAsync(set => set.SetProperty(mark => mark.FirstAccountCode, code));
        }

        Dictionary<string, string> made = [];
        List<string> wrong = [];
        foreach (JsonNode example in examples.OfType<JsonNode>())
        {
            string call = (string)example["call"]!, method = call.Split(' ')[0], path = call.Split(' ')[1];
            JsonNode operation = description["paths"]![path]![method.ToLowerInvariant()]!;
            JsonNode? written = operation["responses"]![example["status"]!.ToString()];
            if (written is null)
            {
                wrong.Add($"{call}: {example["status"]} is not in the description");
                continue;
            }

            wrong.AddRange(Compare(description, $"{call}: request", operation["requestBody"]?["content"], example["request"]));
            using HttpRequestMessage request = Request(method, path, example, made);
            using HttpResponseMessage answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
            string media = answer.Content.Headers.ContentType?.MediaType ?? "";
            JsonNode? body = media == EventStream ? await FirstEventAsync(answer)
                : media.EndsWith("json", StringComparison.Ordinal) ? JsonNode.Parse(await answer.Content.ReadAsStringAsync()) : null;
            if ((int)answer.StatusCode != (int)example["status"]!)
            {
                wrong.Add($"{call}: answered {(int)answer.StatusCode} instead of {example["status"]}: {body}");
            }

            if (call == "POST /api/people")
            {
                // The server chose this id; the examples go on with the one they show.
                made[(string)example["response"]!["id"]!] = (string)body!["id"]!;
            }

            if (call == "POST /api/practice")
            {
                made[(string)example["response"]!["run"]!["id"]!] = (string)body!["run"]!["id"]!;
            }

            if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
            {
                string? text = body?.ToJsonString();
                foreach ((string shown, string real) in made)
                {
                    text = text?.Replace(real, shown, StringComparison.Ordinal);
                }

                example["response"] = text is null ? null : JsonNode.Parse(text);
            }

            if (body is null != example["response"] is null)
            {
                wrong.Add($"{call}: the example has {(body is null ? "an" : "no")} answer");
            }

            wrong.AddRange(Compare(description, $"{call}: answer", written["content"], example["response"]));
            if (media != EventStream)
            {
                wrong.AddRange(Faults(description, written["content"]?[media]?["schema"], body, $"{call}: real answer"));
            }
        }

        if (Environment.GetEnvironmentVariable("SWARDLOOP_APPROVE") == "1")
        {
            await System.IO.File.WriteAllTextAsync(File, examples.ToJsonString(new() { WriteIndented = true, IndentSize = 2, NewLine = "\n", Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }) + "\n");
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
    }

    // For people of a workshop only; the workshop of the examples has none yet.
    private static async Task<string> DescriptionAsync()
    {
        await using Served another = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient reader = await another.AsAsync(Workshop.Api.Role.Reader);
        return await reader.GetStringAsync("/openapi/v1.json");
    }

    private static HttpRequestMessage Request(string method, string path, JsonNode example, Dictionary<string, string> made)
    {
        string url = Gap().Replace(path, gap =>
        {
            string value = (string)example["path"]![gap.Groups[1].Value]!;
            return made.GetValueOrDefault(value, value);
        });
        if (example["query"] is JsonObject query)
        {
            url += "?" + string.Join('&', query.Select(one => $"{one.Key}={Uri.EscapeDataString((string)one.Value!)}"));
        }

        HttpRequestMessage request = new(new(method), new Uri(url, UriKind.Relative));
        if (example["request"] is { } body)
        {
            request.Content = Served.Json(body.ToJsonString());
        }
        else if (example["bytes"] is { } bytes)
        {
            request.Content = new ByteArrayContent(Convert.FromBase64String((string)bytes!));
            request.Content.Headers.ContentType = new((string)example["media"]!);
        }

        return request;
    }

    private static async Task<JsonNode?> FirstEventAsync(HttpResponseMessage answer)
    {
        using StreamReader lines = new(await answer.Content.ReadAsStreamAsync(), Encoding.UTF8);
        return JsonValue.Create(await lines.ReadLineAsync());
    }

    /// <summary>Whether the description shows the example, and whether it fits.</summary>
    private static IEnumerable<string> Compare(JsonNode description, string place, JsonNode? content, JsonNode? example)
    {
        foreach ((string media, JsonNode? type) in content?.AsObject() ?? [])
        {
            if (!JsonNode.DeepEquals(type!["example"], example))
            {
                yield return $"{place}: {media} does not show the example";
            }

            if (media != EventStream)
            {
                foreach (string fault in Faults(description, type["schema"], example, place))
                {
                    yield return fault;
                }
            }
        }
    }

    /// <summary>What in a value is not as its schema says: types, required and unknown properties, words, ids and moments.</summary>
    private static IEnumerable<string> Faults(JsonNode description, JsonNode? schema, JsonNode? value, string place)
    {
        if (schema is not JsonObject rule)
        {
            return [];
        }

        if (rule["$ref"] is { } reference)
        {
            JsonNode? named = ((string)reference!).TrimStart('#', '/').Split('/').Aggregate((JsonNode?)description, (node, step) => node?[step]);
            return named is null ? [$"{place}: {reference} is nowhere"] : Faults(description, named, value, place);
        }

        foreach (string choice in (string[])["oneOf", "anyOf"])
        {
            if (rule[choice] is JsonArray choices)
            {
                return choices.Any(one => !Faults(description, one, value, place).Any()) ? [] : [$"{place}: fits none of {choice}"];
            }
        }

        List<string> faults = [];
        string[] types = rule["type"] switch { JsonArray many => [.. many.Select(one => (string)one!)], JsonValue one => [(string)one!], _ => [] };
        string kind = value is null ? "null" : value.GetValueKind() switch
        {
            JsonValueKind.Object => "object",
            JsonValueKind.Array => "array",
            JsonValueKind.String => "string",
            JsonValueKind.Number => value.ToJsonString().Contains('.', StringComparison.Ordinal) ? "number" : "integer",
            _ => "boolean",
        };
        bool isBinary = (string?)rule["format"] is "byte" or "binary";
        if (types.Length > 0 && !types.Contains(kind) && !(kind == "integer" && types.Contains("number")) && !(isBinary && value is null))
        {
            faults.Add($"{place}: is {kind}, allowed {string.Join(", ", types)}");
        }

        if (rule["enum"] is JsonArray words && !words.Any(word => JsonNode.DeepEquals(word, value)))
        {
            faults.Add($"{place}: {value} is none of {words.ToJsonString()}");
        }

        if (value is JsonValue && kind == "string"
            && (((string?)rule["format"] == "uuid" && !Guid.TryParse((string?)value, out _)) || ((string?)rule["format"] == "date-time" && !DateTimeOffset.TryParse((string?)value, out _))))
        {
            faults.Add($"{place}: {value} is no {rule["format"]}");
        }

        if (value is JsonArray items)
        {
            faults.AddRange(items.SelectMany((item, i) => Faults(description, rule["items"], item, $"{place}[{i}]")));
        }

        if (value is JsonObject members)
        {
            faults.AddRange((rule["required"]?.AsArray() ?? []).Where(name => !members.ContainsKey((string)name!)).Select(name => $"{place}.{name}: is missing"));
            foreach ((string name, JsonNode? member) in members)
            {
                if (rule["properties"]?[name] is { } property)
                {
                    faults.AddRange(Faults(description, property, member, $"{place}.{name}"));
                }
                else if (rule["additionalProperties"] is JsonObject other)
                {
                    faults.AddRange(Faults(description, other, member, $"{place}.{name}"));
                }
                else if (rule["properties"] is not null)
                {
                    faults.Add($"{place}.{name}: is not described");
                }
            }
        }

        return faults;
    }

    [GeneratedRegex(@"\{(\w+)\}")]
    private static partial Regex Gap();
}
