using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using Swardloop.Model.Cases;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary>What a cookie says of its bearer. Who still has to change the password has no role yet.</summary>
internal sealed class AccountClaims(UserManager<Account> accounts, IOptions<IdentityOptions> options) : UserClaimsPrincipalFactory<Account>(accounts, options)
{
    /// <summary>Claim: the name shown.</summary>
    public const string DisplayName = "name";

    /// <summary>Claim: the password is to be changed.</summary>
    public const string MustChangePassword = "must-change-password";

    /// <inheritdoc/>
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        ClaimsIdentity identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new(DisplayName, user.DisplayName));
        identity.AddClaim(user.MustChangePassword
            ? new(MustChangePassword, "true")
            : new(identity.RoleClaimType, WireName.Of(user.Role)));
        return identity;
    }

    /// <summary>The role of a signed-in person; null for none.</summary>
    public static Role? RoleOf(ClaimsPrincipal person) => person.FindFirstValue(ClaimTypes.Role) is { } name
        ? WireName.Words<Role>().Where(role => role.Key == name).Select(role => (Role?)role.Value).FirstOrDefault()
        : null;

    /// <summary>The signed-in person as an author of changes.</summary>
    public static Author AuthorOf(ClaimsPrincipal person) =>
        new(person.FindFirstValue(DisplayName) ?? "", RoleOf(person) ?? Role.Reader);
}
