using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary>Where people are signed in: one's own sessions, and for the principal everybody's.</summary>
internal static class SessionEndpoints
{
    private const int MostListed = 200;

    /// <summary>Adds the endpoints.</summary>
    public static void MapSessions(this RouteGroupBuilder api)
    {
        api.MapGet("sessions", ListAsync).RequireAuthorization(Rule.Read).Produces<IReadOnlyList<SessionEntry>>();
        api.MapDelete("sessions/{id:guid}", EndAsync).RequireAuthorization(Rule.Read).Produces(204).Problems(404);
    }

    private static async Task<Ok<IReadOnlyList<SessionEntry>>> ListAsync(ClaimsPrincipal person, WorkshopDatabase database, CancellationToken cancellation)
    {
        Guid? own = OwnOnly(person), current = SessionBook.IdOf(person);
        var open = await (
            from session in database.Sessions.AsNoTracking()
            where session.EndedAt == null && (own == null || session.Account == own)
            join account in database.Users.AsNoTracking() on session.Account equals account.Id
            orderby session.Id descending
            select new { Session = session, account.DisplayName }).Take(MostListed).ToListAsync(cancellation);
        return TypedResults.Ok<IReadOnlyList<SessionEntry>>([.. open.Select(one => new SessionEntry(
            one.Session.Id, one.DisplayName, one.Session.Device, one.Session.StartedAt, one.Session.SeenAt, one.Session.Id == current))]);
    }

    private static async Task<NoContent> EndAsync(Guid id, ClaimsPrincipal person, SessionBook sessions, CancellationToken cancellation) =>
        await sessions.EndAsync(OwnOnly(person), id, cancellation) > 0
            ? TypedResults.NoContent()
            : throw new BadInputException(StatusCodes.Status404NotFound, "There is no such session.", []);

    private static Guid? OwnOnly(ClaimsPrincipal person) => AccountClaims.RoleOf(person) == Role.Principal
        ? null
        : Guid.Parse(person.FindFirstValue(ClaimTypes.NameIdentifier)!);
}
