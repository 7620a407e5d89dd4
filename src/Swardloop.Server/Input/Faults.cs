using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.WebUtilities;
using Swardloop.Model.Checks;
using Swardloop.Server.OwnersPage;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Input;

/// <summary>Turns whatever goes wrong into problem details (RFC 9457) with a plain reason.</summary>
internal sealed partial class Faults(IDatabaseEngine engine, ILogger<Faults> log) : IExceptionHandler
{
    /// <inheritdoc/>
    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        switch (exception)
        {
            case BadInputException bad:
                await WriteAsync(httpContext, bad.Status, bad.Message, bad.Problems);
                return true;
            case BadHttpRequestException bad:
                await WriteAsync(httpContext, bad.StatusCode, bad.Message);
                return true;
            case OperationCanceledException when httpContext.RequestAborted.IsCancellationRequested:
                httpContext.Response.StatusCode = StatusCodes.Status499ClientClosedRequest;
                return true;
        }

        if (engine.WordsFor(exception) is { } words)
        {
            LogStorage(log, words, exception.Message);
            await WriteAsync(httpContext, StatusCodes.Status507InsufficientStorage, $"Not kept: {words}.");
            return true;
        }

        // The rest of an owner's address is a secret, and no log's business.
        PathString path = httpContext.Request.Path;
        LogFailed(log, httpContext.Request.Method, path.StartsWithSegments(OwnerEndpoints.Root) ? OwnerEndpoints.Root : path, exception);
        await WriteAsync(httpContext, StatusCodes.Status500InternalServerError, "The server failed; what happened is in its log.");
        return true;
    }

    /// <summary>Answers a status that has no body yet.</summary>
    public static Task OfStatusAsync(StatusCodeContext context)
    {
        HttpContext http = context.HttpContext;
        return http.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal)
            ? WriteAsync(http, http.Response.StatusCode, http.Response.StatusCode switch
            {
                StatusCodes.Status401Unauthorized => "Sign in first.",
                StatusCodes.Status403Forbidden => "Your role may not do this.",
                StatusCodes.Status404NotFound => "There is no such thing.",
                StatusCodes.Status405MethodNotAllowed => "This address does not take that method.",
                StatusCodes.Status415UnsupportedMediaType => "The body has to be of another media type.",
                StatusCodes.Status429TooManyRequests => "Too many tries; wait a minute.",
                _ => ReasonPhrases.GetReasonPhrase(http.Response.StatusCode),
            })
            : Task.CompletedTask;
    }

    /// <summary>Answers calls that do not exist.</summary>
    public static Task NoSuchCall(HttpContext context) => WriteAsync(context, StatusCodes.Status404NotFound, "There is no such call.");

    /// <summary>Writes a problem.</summary>
    public static Task WriteAsync(HttpContext context, int status, string detail, IReadOnlyList<Problem>? problems = null)
    {
        context.Response.StatusCode = status;
        ProblemReply reply = new(
            "about:blank", ReasonPhrases.GetReasonPhrase(status), status, detail,
            [.. (problems ?? []).Select(problem => new FieldProblem(problem.Place, problem.Message, problem.Allowed))]);
        return context.Response.WriteAsJsonAsync(reply, WorkshopJson.Default.ProblemReply, "application/problem+json");
    }

    [LoggerMessage(LogLevel.Error, "{Words} ({Fault})")]
    private static partial void LogStorage(ILogger log, string words, string fault);

    [LoggerMessage(LogLevel.Error, "{Method} {Path} failed")]
    private static partial void LogFailed(ILogger log, string method, string path, Exception fault);
}
