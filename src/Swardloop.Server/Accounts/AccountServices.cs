using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Swardloop.Model.Cases;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary>Sets up accounts, cookies, rules and the limits on tries.</summary>
internal static class AccountServices
{
    /// <summary>Name of the limit on tries to sign in.</summary>
    public const string TryLimit = "tries";

    private const int MostTriesPerMinute = 30;

    /// <summary>Adds everything that accounts need.</summary>
    /// <param name="services">Takes them.</param>
    /// <param name="isDemo">Whether it is the demo workshop: browsers keep cookies by host, not by port, and the demo's must not put out the workshop's own.</param>
    public static void AddAccounts(this IServiceCollection services, bool isDemo)
    {
        services.AddIdentityCore<Account>(identity =>
            {
                identity.User.RequireUniqueEmail = true;
                identity.User.AllowedUserNameCharacters = ""; // any: it is the e-mail address
                identity.Password = new()
                {
                    RequiredLength = PasswordRule.FewestCharacters,
                    RequiredUniqueChars = 4,
                    RequireDigit = false,
                    RequireLowercase = false,
                    RequireUppercase = false,
                    RequireNonAlphanumeric = false,
                };
            })
            .AddEntityFrameworkStores<WorkshopDatabase>()
            .AddSignInManager<SessionSignIn>()
            .AddClaimsPrincipalFactory<AccountClaims>()
            .AddDefaultTokenProviders();
        services.AddHttpContextAccessor();
        services.AddSingleton<SessionBook>();
        services.AddScoped<PeopleEndpoints.Alone>();
        services.AddSingleton<IPasswordHasher<Account>, PasswordHasher<Account>>();
        services.AddSingleton<PasswordTries>();
        services.AddAuthentication(IdentityConstants.ApplicationScheme).AddIdentityCookies();
        services.ConfigureAll<CookieAuthenticationOptions>(cookie =>
        {
            cookie.Cookie.HttpOnly = true;
            cookie.Cookie.SameSite = SameSiteMode.Strict;
            cookie.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services.ConfigureApplicationCookie(cookie =>
        {
            cookie.Cookie.Name = isDemo ? "swardloop-demo" : "swardloop";
            cookie.ExpireTimeSpan = TimeSpan.FromDays(30);
            cookie.SlidingExpiration = true;
            cookie.Events.OnValidatePrincipal = async context =>
            {
                SessionBook sessions = context.HttpContext.RequestServices.GetRequiredService<SessionBook>();
                if (context.Principal is not { } person || !await sessions.IsGoodAsync(person, context.HttpContext.RequestAborted))
                {
                    context.RejectPrincipal();
                }
            };
            cookie.Events.OnRedirectToLogin = context => Answer(context, StatusCodes.Status401Unauthorized);
            cookie.Events.OnRedirectToAccessDenied = context => Answer(context, StatusCodes.Status403Forbidden);
        });
        services.AddAuthorizationBuilder()
            .AddPolicy(Rule.SignedIn, rule => rule.RequireAuthenticatedUser())
            .AddPolicy(Rule.Read, rule => rule.RequireRole(Names(Role.Reader, Role.Desk, Role.Technician, Role.Principal)))
            .AddPolicy(Rule.Write, rule => rule.RequireRole(Names(Role.Desk, Role.Technician, Role.Principal)))
            .AddPolicy(Rule.Principal, rule => rule.RequireRole(Names(Role.Principal)))
            // An endpoint that forgot its rule is the principal's; a test finds it.
            .SetFallbackPolicy(new Microsoft.AspNetCore.Authorization.AuthorizationPolicyBuilder().RequireRole(Names(Role.Principal)).Build());
        services.AddRateLimiter(limits =>
        {
            limits.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            limits.AddPolicy(TryLimit, context => RateLimitPartition.GetFixedWindowLimiter(
                ClientAddress.Of(context),
                _ => new FixedWindowRateLimiterOptions { PermitLimit = MostTriesPerMinute, Window = TimeSpan.FromMinutes(1) }));
        });
    }

    private static string[] Names(params Role[] roles) => [.. roles.Select(WireName.Of)];

    private static Task Answer(RedirectContext<CookieAuthenticationOptions> context, int status)
    {
        context.Response.StatusCode = status;
        return Task.CompletedTask;
    }
}
