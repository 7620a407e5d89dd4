using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Swardloop.Model.Checks;
using Swardloop.Server.Input;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Accounts;

/// <summary>Signing in and out, the first account, one's own password.</summary>
internal static class AccountEndpoints
{
    private const int LongestName = 100, LongestEmail = 254, LongestPassword = 200;

    /// <summary>Adds the endpoints.</summary>
    public static void MapAccounts(this RouteGroupBuilder api)
    {
        api.MapGet("me", MeAsync).AllowAnonymous().Produces<Me>();
        api.MapPost("first-account", FirstAccountAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit)
            .Accepts<FirstAccount>("application/json").Produces<Me>().Problems(400, 409, 429);
        api.MapPost("sign-in", SignInAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit)
            .Accepts<SignIn>("application/json").Produces<Me>().Problems(400, 401, 429);
        api.MapPost("sign-out", SignOutAsync).AllowAnonymous().Produces(StatusCodes.Status204NoContent);
        api.MapPut("me/password", ChangePasswordAsync).RequireAuthorization(Rule.SignedIn)
            .Accepts<PasswordChange>("application/json").Produces<Me>().Problems(400, 401);
        api.MapPasskeys();
        api.MapSessions();
        api.MapPeople();
    }

    /// <summary>Reads name, e-mail address and password, with every fault noted.</summary>
    public static (string? Name, string? Email, string? Password) ReadPerson(JsonFields fields, bool needsPassword = true)
    {
        string? name = fields.Text("name", LongestName, required: true), email = fields.Text("email", LongestEmail, required: true);
        string? password = fields.Text("password", LongestPassword, required: needsPassword);
        if (name is not null && (string.Equals(ShownText.Seen(name), Author.Owner, StringComparison.OrdinalIgnoreCase) || name.Any(char.IsControl) || !ShownText.IsSeen(name)))
        {
            fields.Problems.Add(fields.PlaceOf("name"), "cannot be used", "a person's name");
        }

        if (email is not null && (email.Count('@') != 1 || email.StartsWith('@') || email.EndsWith('@') || email.Any(c => char.IsControl(c) || char.IsWhiteSpace(c))))
        {
            fields.Problems.Add(fields.PlaceOf("email"), "is no e-mail address", "an address such as robin@example.org");
        }

        CheckPassword(fields, password);
        return (name?.Trim(), email, password);
    }

    /// <summary>Notes what Identity refused.</summary>
    public static BadInputException Refused(IdentityResult result)
    {
        ProblemList problems = new("");
        foreach (IdentityError error in result.Errors.Where(error => error.Code != nameof(IdentityErrorDescriber.DuplicateUserName)))
        {
            string place = error.Code.StartsWith("Password", StringComparison.Ordinal) ? "password" : "email";
            problems.Add(place, error.Description.TrimEnd('.'), "");
        }

        if (!problems.Any)
        {
            problems.Add("email", "is taken", "another address");
        }

        return BadInputException.Of(problems);
    }

    private static void CheckPassword(JsonFields fields, string? password)
    {
        if (password is not null && (password.Length < PasswordRule.FewestCharacters || password.Distinct().Count() < 4))
        {
            fields.Problems.Add(fields.PlaceOf("password"), "is too easy to guess",
                $"{PasswordRule.FewestCharacters} to {LongestPassword} characters, four of them different");
        }
    }

    private static async Task<IResult> MeAsync(
        HttpContext context, SignInManager<Account> signIn, WorkshopDatabase database, ServedWorkshop served, CancellationToken cancellation)
    {
        if (served.IsDemo && context.User.Identity is not { IsAuthenticated: true }
            && await database.Users.OrderBy(account => account.Id).FirstOrDefaultAsync(cancellation) is { } demo)
        {
            // The demo has nothing to protect, and a password to look up would keep people out.
            await signIn.SignInAsync(demo, isPersistent: false);
            return TypedResults.Ok(Of(demo, served));
        }

        ClaimsPrincipal person = context.User;
        return TypedResults.Ok(person.Identity is { IsAuthenticated: true }
            ? new Me(person.FindFirstValue(AccountClaims.DisplayName), person.FindFirstValue(ClaimTypes.Email), AccountClaims.RoleOf(person),
                person.HasClaim(claim => claim.Type == AccountClaims.MustChangePassword), served.Workshop, served.IsDemo, false, served.Build)
            : new Me(null, null, null, false, served.Workshop, served.IsDemo, !await database.Users.AnyAsync(cancellation), served.Build));
    }

    private static async Task<IResult> FirstAccountAsync(
        HttpRequest request, SignInManager<Account> signIn, WorkshopDatabase database, WriteTurn turn, ServedWorkshop served)
    {
        FirstAccount first = await JsonBody.ReadAsync(request, fields =>
        {
            string? code = fields.Text("code", 100, required: true);
            (string? name, string? email, string? password) = ReadPerson(fields);
            return fields.Problems.Any ? null : new FirstAccount(code!, name!, email!, password!);
        });

        Account account = await MakeFirstAsync(first, signIn, database, turn, request.HttpContext.RequestAborted);
        await signIn.SignInAsync(account, isPersistent: true); // writes too, and so waits for its own turn
        return TypedResults.Ok(Of(account, served));
    }

    private static async Task<Account> MakeFirstAsync(
        FirstAccount first, SignInManager<Account> signIn, WorkshopDatabase database, WriteTurn turn, CancellationToken cancellation)
    {
        using IDisposable mine = await turn.TakeAsync(cancellation);
        await using var transaction = await database.Database.BeginTransactionAsync(cancellation);
        // Holds the row, so that two who have the code make one first account.
        await database.Mark.ExecuteUpdateAsync(set => set.SetProperty(mark => mark.LastVersion, mark => mark.LastVersion), cancellation);
        string? code = await database.Mark.AsNoTracking().Select(mark => mark.FirstAccountCode).SingleAsync(cancellation);
        if (code is null || await database.Users.AnyAsync(cancellation))
        {
            throw new BadInputException(StatusCodes.Status409Conflict, "The first account is there already; ask its owner for one.", []);
        }

        if (!FirstAccountCode.IsSame(code, first.Code))
        {
            throw BadInputException.Of("code", "is not the code on the server's console", "the code that the server printed when it started");
        }

        Account account = new() { DisplayName = first.Name, UserName = first.Email, Email = first.Email, Role = Role.Principal };
        IdentityResult made = await signIn.UserManager.CreateAsync(account, first.Password);
        if (!made.Succeeded)
        {
            throw Refused(made);
        }

        await database.Mark.ExecuteUpdateAsync(set => set.SetProperty(mark => mark.FirstAccountCode, (string?)null), cancellation);
        await transaction.CommitAsync(CancellationToken.None);
        return account;
    }

    private static async Task<IResult> SignInAsync(HttpRequest request, SignInManager<Account> signIn, PasswordTries tries, ServedWorkshop served)
    {
        SignIn asked = await JsonBody.ReadAsync(request, fields =>
        {
            string? email = fields.Text("email", LongestEmail, required: true), password = fields.Text("password", LongestPassword, required: true);
            return email is null || password is null ? null : new SignIn(email, password);
        });
        Account? account = await signIn.UserManager.FindByEmailAsync(asked.Email);
        CancellationToken cancellation = request.HttpContext.RequestAborted;
        if (!await tries.TryAsync(asked.Email, account, asked.Password, ClientAddress.Of(request.HttpContext), cancellation))
        {
            throw new BadInputException(StatusCodes.Status401Unauthorized,
                $"No account with this address and password. After {PasswordTries.MostFromOnePlace} wrong tries from one place, that place has to wait for {PasswordTries.ShutFor.TotalMinutes:0} minutes.", []);
        }

        await signIn.SignInAsync(account!, isPersistent: true);
        return TypedResults.Ok(Of(account!, served));
    }

    private static async Task<IResult> SignOutAsync(SignInManager<Account> signIn)
    {
        await signIn.SignOutAsync();
        return TypedResults.NoContent();
    }

    private static async Task<IResult> ChangePasswordAsync(
        HttpRequest request, SignInManager<Account> signIn, PasswordTries tries, SessionBook sessions, ServedWorkshop served)
    {
        PasswordChange asked = await JsonBody.ReadAsync(request, fields =>
        {
            string? current = fields.Text("current", LongestPassword, required: true), password = fields.Text("password", LongestPassword, required: true);
            CheckPassword(fields, password);
            return current is null || password is null ? null : new PasswordChange(current, password);
        });
        Account account = await signIn.UserManager.GetUserAsync(request.HttpContext.User)
            ?? throw new BadInputException(StatusCodes.Status401Unauthorized, "Sign in first.", []);
        CancellationToken cancellation = request.HttpContext.RequestAborted;
        if (!await tries.TryAsync(account.Email ?? "", account, asked.Current, ClientAddress.Of(request.HttpContext), cancellation))
        {
            throw BadInputException.Of("current", "is not your password", "the password you signed in with");
        }

        account.MustChangePassword = false;
        account.PasswordUntil = null;
        IdentityResult changed = await signIn.UserManager.ChangePasswordAsync(account, asked.Current, asked.Password);
        if (!changed.Succeeded)
        {
            throw Refused(changed);
        }

        // Whoever knew the old password may be signed in elsewhere.
        await sessions.EndAsync(account.Id, null, cancellation);
        await signIn.SignInAsync(account, isPersistent: true);
        return TypedResults.Ok(Of(account, served));
    }

    private static Me Of(Account account, ServedWorkshop served) => new(
        account.DisplayName, account.Email, account.MustChangePassword ? null : account.Role, account.MustChangePassword,
        served.Workshop, served.IsDemo, false, served.Build);
}
