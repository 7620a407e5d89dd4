using System.Buffers.Text;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Swardloop.Model.Checks;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary>Passkeys: asked for and answered as the browser's <c>navigator.credentials</c> spells them.</summary>
internal static class PasskeyEndpoints
{
    /// <summary>Adds the endpoints.</summary>
    public static void MapPasskeys(this RouteGroupBuilder api)
    {
        RouteGroupBuilder passkeys = api.MapGroup("passkeys");
        passkeys.MapGet("", ListAsync).RequireAuthorization(Rule.Read).Produces<IReadOnlyList<PasskeyEntry>>();
        passkeys.MapPut("{id}", NameAsync).RequireAuthorization(Rule.Read).Accepts<PasskeyName>("application/json").Produces(204).Problems(400, 404);
        passkeys.MapDelete("{id}", RemoveAsync).RequireAuthorization(Rule.Read).Produces(204).Problems(404);
        passkeys.MapPost("creation-options", CreationOptionsAsync).RequireAuthorization(Rule.Read).Produces<object>();
        passkeys.MapPost("", AddAsync).RequireAuthorization(Rule.Read).Accepts<object>("application/json").Produces(204).Problems(400);
        passkeys.MapPost("request-options", RequestOptionsAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit).Produces<object>();
        passkeys.MapPost("sign-in", SignInAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit)
            .Accepts<object>("application/json").Produces(204).Problems(400, 401, 429);
    }

    private static async Task<Ok<IReadOnlyList<PasskeyEntry>>> ListAsync(HttpContext context, SignInManager<Account> signIn)
    {
        IList<UserPasskeyInfo> passkeys = await signIn.UserManager.GetPasskeysAsync(await OwnAsync(context, signIn));
        return TypedResults.Ok<IReadOnlyList<PasskeyEntry>>(
            [.. passkeys.OrderBy(passkey => passkey.CreatedAt).Select(passkey => new PasskeyEntry(Base64Url.EncodeToString(passkey.CredentialId), passkey.Name, passkey.CreatedAt))]);
    }

    private static async Task<NoContent> NameAsync(string id, HttpContext context, SignInManager<Account> signIn)
    {
        PasskeyName asked = await JsonBody.ReadAsync(context.Request, fields =>
        {
            string? name = fields.Text("name", PasskeyName.MostCharacters, required: true)?.Trim();
            if (name is not null && (name.Length == 0 || name.Any(char.IsControl)))
            {
                fields.Problems.Add(fields.PlaceOf("name"), "is no name", $"1 to {PasskeyName.MostCharacters} characters");
            }

            return name is null || fields.Problems.Any ? null : new PasskeyName(name);
        });
        (Account account, UserPasskeyInfo passkey) = await FindAsync(id, context, signIn);
        passkey.Name = asked.Name;
        IdentityResult named = await signIn.UserManager.AddOrUpdatePasskeyAsync(account, passkey);
        return named.Succeeded ? TypedResults.NoContent() : throw AccountEndpoints.Refused(named);
    }

    private static async Task<NoContent> RemoveAsync(string id, HttpContext context, SignInManager<Account> signIn)
    {
        (Account account, UserPasskeyInfo passkey) = await FindAsync(id, context, signIn);
        IdentityResult removed = await signIn.UserManager.RemovePasskeyAsync(account, passkey.CredentialId);
        return removed.Succeeded ? TypedResults.NoContent() : throw AccountEndpoints.Refused(removed);
    }

    // One's own only: another's passkey and one that there never was look alike.
    private static async Task<(Account Account, UserPasskeyInfo Passkey)> FindAsync(string id, HttpContext context, SignInManager<Account> signIn)
    {
        Account account = await OwnAsync(context, signIn);
        UserPasskeyInfo? passkey = Base64Url.IsValid(id) ? await signIn.UserManager.GetPasskeyAsync(account, Base64Url.DecodeFromChars(id)) : null;
        return passkey is null ? throw new BadInputException(StatusCodes.Status404NotFound, "You have no such passkey.", []) : (account, passkey);
    }

    private static async Task<ContentHttpResult> CreationOptionsAsync(HttpContext context, SignInManager<Account> signIn)
    {
        Account account = await OwnAsync(context, signIn);
        string options = await signIn.MakePasskeyCreationOptionsAsync(new()
        {
            Id = account.Id.ToString(),
            Name = account.Email ?? account.DisplayName,
            DisplayName = account.DisplayName,
        });
        return TypedResults.Text(options, "application/json", Encoding.UTF8);
    }

    private static async Task<NoContent> AddAsync(HttpContext context, SignInManager<Account> signIn)
    {
        string credential = await CredentialAsync(context.Request);
        Account account = await OwnAsync(context, signIn);
        PasskeyAttestationResult attested = await TryAsync(() => signIn.PerformPasskeyAttestationAsync(credential));
        if (!attested.Succeeded)
        {
            throw Refused(attested.Failure);
        }

        IdentityResult added = await signIn.UserManager.AddOrUpdatePasskeyAsync(account, attested.Passkey);
        return added.Succeeded ? TypedResults.NoContent() : throw AccountEndpoints.Refused(added);
    }

    private static async Task<ContentHttpResult> RequestOptionsAsync(SignInManager<Account> signIn) =>
        TypedResults.Text(await signIn.MakePasskeyRequestOptionsAsync(null), "application/json", Encoding.UTF8);

    private static async Task<NoContent> SignInAsync(HttpContext context, SignInManager<Account> signIn)
    {
        string credential = await CredentialAsync(context.Request);
        SignInResult result = await TryAsync(() => signIn.PasskeySignInAsync(credential));
        return result.Succeeded
            ? TypedResults.NoContent()
            : throw new BadInputException(StatusCodes.Status401Unauthorized, "This passkey opens no account here.", []);
    }

    private static async Task<Account> OwnAsync(HttpContext context, SignInManager<Account> signIn) =>
        await signIn.UserManager.GetUserAsync(context.User)
        ?? throw new BadInputException(StatusCodes.Status401Unauthorized, "Sign in first.", []);

    // Read with care first: what is no JSON object never reaches the library.
    private static async Task<string> CredentialAsync(HttpRequest request)
    {
        ReadOnlyMemory<byte> bytes = await JsonBody.BytesAsync(request);
        ProblemList problems = new("");
        using JsonDocument? document = JsonText.Parse(bytes, problems);
        return document is not null && JsonFields.Of(document.RootElement, "", problems) is not null
            ? Encoding.UTF8.GetString(bytes.Span)
            : throw BadInputException.Of(problems);
    }

    private static async Task<T> TryAsync<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (Exception fault) when (fault is InvalidOperationException or PasskeyException or FormatException or JsonException)
        {
            throw Refused(fault);
        }
    }

    private static BadInputException Refused(Exception fault) =>
        BadInputException.Of("", $"the passkey was refused: {fault.Message.TrimEnd('.')}", "the answer of navigator.credentials to the options just asked for");
}
