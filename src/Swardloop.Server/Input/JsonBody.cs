using System.Text.Json;
using Microsoft.Net.Http.Headers;
using Swardloop.Model.Checks;

namespace Swardloop.Server.Input;

/// <summary>Reads a request's JSON body with the same care as a file: everything that is wrong with it is told at once.</summary>
internal static class JsonBody
{
    /// <summary>Reads the body's bytes.</summary>
    /// <exception cref="BadInputException">It is not said to be JSON.</exception>
    /// <exception cref="BadHttpRequestException">It is too long or breaks off.</exception>
    public static async Task<ReadOnlyMemory<byte>> BytesAsync(HttpRequest request)
    {
        bool isJson = MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
            && (type.MediaType.Equals("application/json", StringComparison.OrdinalIgnoreCase)
                || type.Suffix.Equals("json", StringComparison.OrdinalIgnoreCase));
        if (!isJson)
        {
            throw new BadInputException(StatusCodes.Status415UnsupportedMediaType, "The body has to be JSON, and its media type application/json.", []);
        }

        using MemoryStream bytes = new();
        await request.Body.CopyToAsync(bytes, request.HttpContext.RequestAborted);
        return bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
    }

    /// <summary>Reads an object.</summary>
    /// <param name="request">The request.</param>
    /// <param name="read">Makes of its fields what is wanted; null when something is missing.</param>
    /// <exception cref="BadInputException">Something is wrong.</exception>
    public static async Task<T> ReadAsync<T>(HttpRequest request, Func<JsonFields, T?> read)
        where T : class
    {
        ReadOnlyMemory<byte> bytes = await BytesAsync(request);
        ProblemList problems = new("");
        using JsonDocument? document = JsonText.Parse(bytes, problems);
        T? result = document is not null && JsonFields.Of(document.RootElement, "", problems) is { } fields ? read(fields) : null;
        return result is not null && !problems.Any ? result : throw BadInputException.Of(problems);
    }
}
