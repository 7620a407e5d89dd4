using Swardloop.Workshop.Api;

namespace Swardloop.Server.Input;

/// <summary>Names in the API's description which problems a call may answer.</summary>
internal static class ProblemKinds
{
    /// <summary>The call may answer these statuses with problem details.</summary>
    public static RouteHandlerBuilder Problems(this RouteHandlerBuilder endpoint, params int[] statuses)
    {
        foreach (int status in statuses)
        {
            endpoint.Produces<ProblemReply>(status, "application/problem+json");
        }

        return endpoint;
    }
}
