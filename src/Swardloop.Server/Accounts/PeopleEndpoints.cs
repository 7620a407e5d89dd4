using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Swardloop.Model.Cases;
using Swardloop.Server.Input;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary>The workshop's people: the principal's.</summary>
internal static class PeopleEndpoints
{
    // Long enough for holidays, short enough for a letter that goes astray.
    private static readonly TimeSpan InvitationLasts = TimeSpan.FromDays(7);

    /// <summary>Adds the endpoints.</summary>
    public static void MapPeople(this RouteGroupBuilder api)
    {
        RouteGroupBuilder people = api.MapGroup("people").RequireAuthorization(Rule.Principal);
        people.MapGet("", ListAsync).Produces<IReadOnlyList<PersonEntry>>();
        people.MapPost("", AddAsync).Accepts<NewPerson>("application/json").Produces<PersonEntry>().Problems(400);
        people.MapPut("{id:guid}/role", SetRoleAsync).Accepts<RoleChange>("application/json").Produces<PersonEntry>().Problems(400, 404, 409);
        people.MapPost("{id:guid}/lock", LockAsync).Accepts<LockChange>("application/json").Produces<PersonEntry>().Problems(400, 404, 409);
    }

    private static async Task<Ok<IReadOnlyList<PersonEntry>>> ListAsync(UserManager<Account> accounts, TimeProvider clock)
    {
        List<Account> all = await accounts.Users.OrderBy(account => account.DisplayName).ToListAsync();
        List<PersonEntry> entries = [];
        foreach (Account account in all)
        {
            entries.Add(await EntryAsync(accounts, account, clock));
        }

        return TypedResults.Ok<IReadOnlyList<PersonEntry>>(entries);
    }

    private static async Task<Ok<PersonEntry>> AddAsync(HttpRequest request, UserManager<Account> accounts, TimeProvider clock)
    {
        NewPerson asked = await JsonBody.ReadAsync(request, fields =>
        {
            Role? role = fields.Word<Role>("role", WireName.Words<Role>(), required: true);
            (string? name, string? email, string? password) = AccountEndpoints.ReadPerson(fields, needsPassword: false);
            return fields.Problems.Any ? null : new NewPerson(name!, email!, role!.Value, password);
        });
        string? code = asked.Password is null ? FirstAccountCode.New() : null;
        Account account = new()
        {
            DisplayName = asked.Name,
            UserName = asked.Email,
            Email = asked.Email,
            Role = asked.Role,
            MustChangePassword = true,
            PasswordUntil = code is null ? null : clock.GetUtcNow() + InvitationLasts,
        };
        IdentityResult made = await accounts.CreateAsync(account, asked.Password ?? code!);
        return made.Succeeded
            ? TypedResults.Ok(await EntryAsync(accounts, account, clock) with { Code = code, CodeUntil = account.PasswordUntil })
            : throw AccountEndpoints.Refused(made);
    }

    private static async Task<Ok<PersonEntry>> SetRoleAsync(Guid id, HttpRequest request, Alone alone, TimeProvider clock)
    {
        RoleChange asked = await JsonBody.ReadAsync(request, fields =>
            fields.Word<Role>("role", WireName.Words<Role>(), required: true) is { } role ? new RoleChange(role) : null);
        return await alone.DoAsync(async accounts =>
        {
            Account account = await FindAsync(id, accounts);
            if (asked.Role != Role.Principal)
            {
                await MustNotBeLastAsync(account, accounts, clock);
            }

            account.Role = asked.Role;
            return await SaveAsync(accounts, account, clock);
        });
    }

    private static async Task<Ok<PersonEntry>> LockAsync(Guid id, HttpRequest request, Alone alone, TimeProvider clock)
    {
        LockChange asked = await JsonBody.ReadAsync(request, fields => fields.Flag("isLocked", required: true) is { } locked ? new LockChange(locked) : null);
        return await alone.DoAsync(async accounts =>
        {
            Account account = await FindAsync(id, accounts);
            if (asked.IsLocked)
            {
                await MustNotBeLastAsync(account, accounts, clock);
            }

            account.LockoutEnabled = true;
            account.LockoutEnd = asked.IsLocked ? DateTimeOffset.MaxValue.ToUniversalTime() : null;
            account.AccessFailedCount = 0;
            return await SaveAsync(accounts, account, clock);
        });
    }

    private static async Task<Ok<PersonEntry>> SaveAsync(UserManager<Account> accounts, Account account, TimeProvider clock)
    {
        // A new stamp ends the cookies that say otherwise.
        IdentityResult saved = await accounts.UpdateSecurityStampAsync(account);
        return saved.Succeeded
            ? TypedResults.Ok(await EntryAsync(accounts, account, clock))
            : throw new BadInputException(StatusCodes.Status409Conflict, "Somebody else changed this account at the same time; look again.", []);
    }

    private static async Task<Account> FindAsync(Guid id, UserManager<Account> accounts) =>
        await accounts.Users.FirstOrDefaultAsync(account => account.Id == id)
        ?? throw new BadInputException(StatusCodes.Status404NotFound, "There is no such person.", []);

    private static async Task MustNotBeLastAsync(Account account, UserManager<Account> accounts, TimeProvider clock)
    {
        List<Account> principals = await accounts.Users.Where(other => other.Role == Role.Principal && other.Id != account.Id).ToListAsync();
        if (account.Role == Role.Principal && !principals.Any(other => !IsLocked(other, clock)))
        {
            throw new BadInputException(StatusCodes.Status409Conflict, "The workshop needs an owner who can sign in; name another one first.", []);
        }
    }

    private static bool IsLocked(Account account, TimeProvider clock) => account.LockoutEnd > clock.GetUtcNow();

    private static async Task<PersonEntry> EntryAsync(UserManager<Account> accounts, Account account, TimeProvider clock) => new(
        account.Id, account.DisplayName, account.Email ?? "", account.Role, IsLocked(account, clock), (await accounts.GetPasskeysAsync(account)).Count > 0);

    /// <summary>Changes accounts one change after the other, on every server of the workshop: two who take each other's role away at once are answered
    /// in turn, and the second is refused.</summary>
    internal sealed class Alone(UserManager<Account> accounts, WorkshopDatabase database, WriteTurn turn, SessionBook sessions, IHttpContextAccessor contexts)
    {
        /// <summary>Does it in a transaction that holds the workshop's row.</summary>
        public async Task<T> DoAsync<T>(Func<UserManager<Account>, Task<T>> change)
        {
            using IDisposable mine = await turn.TakeAsync(contexts.HttpContext!.RequestAborted);
            await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync();
            await database.Mark.ExecuteUpdateAsync(set => set.SetProperty(mark => mark.LastVersion, mark => mark.LastVersion));
            database.ChangeTracker.Clear(); // what was read before the turn came may be old
            T result = await change(accounts);
            await transaction.CommitAsync();
            sessions.LookAgain();
            return result;
        }
    }
}
