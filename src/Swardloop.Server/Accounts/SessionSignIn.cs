using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Swardloop.Storage;

namespace Swardloop.Server.Accounts;

/// <summary>Signs in, by password or passkey, with a session's row behind the cookie, and ends the row when signing out.</summary>
internal sealed class SessionSignIn(
    UserManager<Account> accounts, IHttpContextAccessor contexts, IUserClaimsPrincipalFactory<Account> claims, IOptions<IdentityOptions> options,
    ILogger<SignInManager<Account>> log, IAuthenticationSchemeProvider schemes, IUserConfirmation<Account> confirmation, SessionBook sessions)
    : SignInManager<Account>(accounts, contexts, claims, options, log, schemes, confirmation)
{
    /// <inheritdoc/>
    public override async Task SignInWithClaimsAsync(Account user, AuthenticationProperties? authenticationProperties, IEnumerable<Claim> additionalClaims)
    {
        // Signing in again in the same browser ends what was open there: no id is ever taken over from before.
        if (SessionBook.IdOf(Context.User) is { } before)
        {
            await sessions.EndAsync(null, before, Context.RequestAborted);
        }

        string session = await sessions.BeginAsync(user.Id, Context.Request.Headers.UserAgent, Context.RequestAborted);
        await base.SignInWithClaimsAsync(user, authenticationProperties, additionalClaims.Append(new(SessionBook.Claim, session)));
    }

    /// <inheritdoc/>
    public override async Task SignOutAsync()
    {
        if (SessionBook.IdOf(Context.User) is { } session)
        {
            await sessions.EndAsync(null, session, Context.RequestAborted);
        }

        await base.SignOutAsync();
    }
}
