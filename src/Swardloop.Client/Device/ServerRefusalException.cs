using System.Net;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <summary>The server answered, and said no.</summary>
public sealed class ServerRefusalException(HttpStatusCode status, string message, IReadOnlyList<FieldProblem> problems) : Exception(message)
{
    public HttpStatusCode Status => status;

    /// <summary>Whether it is what was sent that the server will not have, now or later, as it is or from this person.</summary>
    public bool RefusesBody => status is HttpStatusCode.BadRequest or HttpStatusCode.Forbidden or HttpStatusCode.RequestEntityTooLarge
        or HttpStatusCode.UnsupportedMediaType or HttpStatusCode.UnprocessableEntity;

    public IReadOnlyList<FieldProblem> Problems => problems;
}
