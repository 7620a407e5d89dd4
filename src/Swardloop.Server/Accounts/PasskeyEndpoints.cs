using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Swardloop.Model.Checks;
using Swardloop.Server.Input;
using Swardloop.Storage;

namespace Swardloop.Server.Accounts;

/// <summary>Passkeys: asked for and answered as the browser's <c>navigator.credentials</c> spells them.</summary>
internal static class PasskeyEndpoints
{
    /// <summary>Adds the endpoints.</summary>
    public static void MapPasskeys(this RouteGroupBuilder api)
    {
        RouteGroupBuilder passkeys = api.MapGroup("passkeys");
        passkeys.MapPost("creation-options", CreationOptionsAsync).RequireAuthorization(Rule.Read).Produces<object>();
        passkeys.MapPost("", AddAsync).RequireAuthorization(Rule.Read).Accepts<object>("application/json").Produces(204).Problems(400);
        passkeys.MapPost("request-options", RequestOptionsAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit).Produces<object>();
        passkeys.MapPost("sign-in", SignInAsync).AllowAnonymous().RequireRateLimiting(AccountServices.TryLimit)
            .Accepts<object>("application/json").Produces(204).Problems(400, 401, 429);
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
