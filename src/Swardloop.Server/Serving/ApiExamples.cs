using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Swardloop.Server.Serving;

/// <summary>Puts an example of its use beside every call in the API's description. The examples are one session with the server, in the order in
/// which they stand in <c>api-examples.json</c>; a test goes through it against a running server.</summary>
internal sealed partial class ApiExamples : IOpenApiOperationTransformer
{
    /// <summary>All examples: <c>call</c>, <c>status</c>, and where there are such, values of <c>path</c> and <c>query</c>, <c>request</c>, <c>response</c>.</summary>
    public static JsonArray All()
    {
        using Stream json = typeof(ApiExamples).Assembly.GetManifestResourceStream("api-examples.json")!;
        return JsonNode.Parse(json)!.AsArray();
    }

    /// <inheritdoc/>
    public Task TransformAsync(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        string call = $"{context.Description.HttpMethod} /{Constraint().Replace(context.Description.RelativePath ?? "", "}").TrimEnd('/')}";
        if (All().FirstOrDefault(one => (string?)one!["call"] == call) is not { } example)
        {
            return Task.CompletedTask;
        }

        operation.Description ??= (string?)example["note"];
        foreach (OpenApiParameter parameter in operation.Parameters?.OfType<OpenApiParameter>() ?? [])
        {
            parameter.Example = (parameter.In == ParameterLocation.Path ? example["path"] : example["query"])?[parameter.Name!]?.DeepClone();
        }

        Put(operation.RequestBody?.Content, example["request"]);
        if (operation.Responses?.TryGetValue(example["status"]!.ToString(), out IOpenApiResponse? response) == true)
        {
            Put(response.Content, example["response"]);
        }

        return Task.CompletedTask;
    }

    private static void Put(IDictionary<string, OpenApiMediaType>? content, JsonNode? example)
    {
        if (example is not null)
        {
            foreach (OpenApiMediaType media in content?.Values ?? [])
            {
                media.Example = example.DeepClone();
            }
        }
    }

    [GeneratedRegex(@":[^}]*\}")]
    private static partial Regex Constraint();
}
