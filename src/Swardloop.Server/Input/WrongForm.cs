namespace Swardloop.Server.Input;

/// <summary>Answers calls of an address that takes another method or media type. Routing puts an endpoint without a rule in their place, which the
/// rule of last resort would answer as if the person's role were wrong.</summary>
internal static class WrongForm
{
    /// <summary>Answers such a call; lets all others through.</summary>
    public static Task AnswerAsync(HttpContext context, RequestDelegate next)
    {
        // The names that the framework gives them: HttpMethodMatcherPolicy and AcceptsMatcherPolicy.
        string name = context.GetEndpoint()?.DisplayName ?? "";
        return name.StartsWith("415 ", StringComparison.Ordinal)
            ? Faults.WriteAsync(context, StatusCodes.Status415UnsupportedMediaType, "The body has to be of another media type.")
            : name.StartsWith("405 ", StringComparison.Ordinal) && context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal)
                ? Faults.WriteAsync(context, StatusCodes.Status405MethodNotAllowed, "This address does not take that method.")
                : next(context);
    }
}
