using System.Text.Json;

namespace Swardloop.Server.Input;

/// <summary>A JSON answer put together from parts that are JSON already.</summary>
internal sealed class JsonParts(Action<Utf8JsonWriter> write) : IResult
{
    /// <inheritdoc/>
    public async Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.ContentType = "application/json";
        await using Utf8JsonWriter json = new(httpContext.Response.BodyWriter);
        write(json);
        await json.FlushAsync(httpContext.RequestAborted);
    }
}
