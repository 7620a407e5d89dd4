using System.Net;
using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <summary>The server answered, and said no.</summary>
public sealed class ServerRefusalException(HttpStatusCode status, string message, IReadOnlyList<FieldProblem> problems) : Exception(message)
{
    public HttpStatusCode Status => status;

    public IReadOnlyList<FieldProblem> Problems => problems;
}
