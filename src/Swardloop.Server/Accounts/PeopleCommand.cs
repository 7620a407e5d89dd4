using System.Text.Json;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Swardloop.Cli;
using Swardloop.Model.Cases;
using Swardloop.Server.Serving;
using Swardloop.Storage;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Accounts;

/// <summary><c>swardloop people</c>: what the person at the server's console may do, who has all the data anyway. So nobody is locked out for good.</summary>
internal sealed class PeopleCommand : ICommand
{
    private static readonly TimeSpan CodeLasts = TimeSpan.FromDays(1);

    /// <inheritdoc/>
    public CommandSyntax Syntax => ServerSyntax.People;

    /// <inheritdoc/>
    public CommandResult Run(Invocation call)
    {
        CancellationToken cancellation = call.Terminal.OnCancel();
        (_, PooledDbContextFactory<WorkshopDatabase> databases) = WorkshopPlace.Of(call).OpenExistingAsync(cancellation).GetAwaiter().GetResult();
        using WorkshopDatabase database = databases.CreateDbContext();
        List<string> said = [];
        if (call.Value("--principal") is { } named)
        {
            Account account = Find(database, call, "--principal", named);
            account.Role = Role.Principal;
            account.LockoutEnd = null;
            account.SecurityStamp = Guid.NewGuid().ToString("N");
            said.Add($"{account.DisplayName} is the principal now");
        }

        if (call.Value("--code") is { } forgetful)
        {
            Account account = Find(database, call, "--code", forgetful);
            string code = FirstAccountCode.New();
            account.PasswordHash = new PasswordHasher<Account>().HashPassword(account, code);
            account.MustChangePassword = true;
            account.PasswordUntil = TimeProvider.System.GetUtcNow() + CodeLasts;
            account.SecurityStamp = Guid.NewGuid().ToString("N"); // ends the sessions there are
            said.Add($"{account.DisplayName} signs in once, within {CodeLasts.TotalHours:0} hours, with the address and this code: {code}");
        }

        database.SaveChanges();
        return new Listed(said, [.. database.Users.AsNoTracking().ToList().OrderBy(account => account.DisplayName, StringComparer.Ordinal)]);
    }

    private static Account Find(WorkshopDatabase database, Invocation call, string option, string email)
    {
        string normalized = email.ToUpperInvariant();
        return database.Users.SingleOrDefault(account => account.NormalizedEmail == normalized)
            ?? throw call.Wrong(option, $"nobody has the address {SafeText.Quoted(email)}", "the address with which a person signs in");
    }

    private sealed class Listed(List<string> said, List<Account> people) : CommandResult
    {
        public override void WriteText(TextWriter text)
        {
            foreach (string line in said)
            {
                text.WriteLine(SafeText.OneLine(line, 1000));
            }

            foreach (Account person in people)
            {
                string state = person.LockoutEnd > TimeProvider.System.GetUtcNow() ? ", locked" : person.MustChangePassword ? ", has to choose a password" : "";
                text.WriteLine(SafeText.OneLine($"{person.Email}: {person.DisplayName}, {WireName.Of(person.Role)}{state}", 1000));
            }
        }

        public override void WriteJson(Utf8JsonWriter json)
        {
            json.WriteStartObject();
            json.WriteStartArray("done");
            said.ForEach(json.WriteStringValue);
            json.WriteEndArray();
            json.WriteStartArray("people");
            foreach (Account person in people)
            {
                json.WriteStartObject();
                json.WriteString("email", person.Email);
                json.WriteString("name", person.DisplayName);
                json.WriteString("role", WireName.Of(person.Role));
                json.WriteBoolean("isLocked", person.LockoutEnd > TimeProvider.System.GetUtcNow());
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }
    }
}
