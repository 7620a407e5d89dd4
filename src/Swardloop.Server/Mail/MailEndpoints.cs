using System.Net;
using System.Security.Claims;
using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Server.Accounts;
using Swardloop.Server.Advising;
using Swardloop.Server.Input;
using Swardloop.Server.Sheets;
using Swardloop.Storage;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Mail;

/// <summary>The workshop's mail server, and sheets sent by it: each asked for by a person, each once, each kept in the case's history with what the mail server answered.</summary>
internal static class MailEndpoints
{
    private const int MostCharacters = 200;

    /// <summary>Adds the endpoints.</summary>
    public static void MapMail(this RouteGroupBuilder api)
    {
        api.MapGet("mail", StateAsync).RequireAuthorization(Rule.Read).Produces<MailState>();
        api.MapGet("mail/settings", SettingsAsync).RequireAuthorization(Rule.Principal).Produces<MailSettings>();
        api.MapPut("mail/settings", SetAsync).RequireAuthorization(Rule.Principal).Accepts<NewMailSettings>("application/json").Produces<MailSettings>().Problems(400);
        api.MapDelete("mail/settings", RemoveAsync).RequireAuthorization(Rule.Principal).Produces(StatusCodes.Status204NoContent);
        api.MapPost("cases/{id:guid}/sheets/{kind}/sending", SendAsync).RequireAuthorization(Rule.Write)
            .Accepts<SheetSending>("application/json").Produces<SheetSent>().Problems(400, 404, 409, 503);
    }

    private static async Task<Ok<MailState>> StateAsync(MailBook book, CancellationToken cancellation) =>
        TypedResults.Ok(await book.FindAsync(cancellation) is { } server ? new MailState(true, server.From) : new(false, null));

    private static async Task<Ok<MailSettings>> SettingsAsync(MailBook book, CancellationToken cancellation) =>
        TypedResults.Ok(await book.FindAsync(cancellation) is { } server ? Shown(server) : new("", 587, MailSecurity.StartTls, null, "", false));

    private static async Task<Ok<MailSettings>> SetAsync(HttpRequest request, MailBook book, WriteTurn turn)
    {
        NewMailSettings settings = await JsonBody.ReadAsync(request, fields =>
        {
            string? host = fields.Text("host", MostCharacters, required: true)?.Trim(), user = Optional(fields, "user")?.Trim(), password = Optional(fields, "password");
            string? from = fields.Text("from", MostCharacters, required: true)?.Trim();
            int? port = fields.WholeNumber("port", 1, 65535, required: true);
            MailSecurity? security = fields.Word("security", WireName.Words<MailSecurity>(), required: true);
            if (host is not null && Uri.CheckHostName(host) == UriHostNameType.Unknown)
            {
                fields.Problems.Add("host", "is no name of a server", "a name such as mail.example.org, or an IP address");
            }

            if (from is not null && !IsAddress(from))
            {
                fields.Problems.Add("from", "is no e-mail address", "an address such as bench@lawns.example.org");
            }

            // What is typed here would go over the net for everybody to read.
            if (security == MailSecurity.None && user is { Length: > 0 } && host is not null && !IsThisMachine(host))
            {
                fields.Problems.Add("security", "sends the password unencrypted", "start-tls or tls; none only to this machine or without a user");
            }

            return fields.Problems.Any || host is null || from is null || port is null || security is null ? null
                : new NewMailSettings(host, port.Value, security.Value, user is { Length: > 0 } ? user : null, from, password is { Length: > 0 } ? password : null);
        });
        await book.SetAsync(settings, turn, request.HttpContext.RequestAborted);
        return TypedResults.Ok(Shown((await book.FindAsync(request.HttpContext.RequestAborted))!));
    }

    private static async Task<NoContent> RemoveAsync(MailBook book, WriteTurn turn, CancellationToken cancellation)
    {
        await book.RemoveAsync(turn, cancellation);
        return TypedResults.NoContent();
    }

    private static async Task<Ok<SheetSent>> SendAsync(
        Guid id, string kind, HttpRequest request, ClaimsPrincipal person, MailBook book, WorkshopDatabase database, Journal journal, WorkshopPriors priors, ComputingQueue queue, TimeProvider clock,
        SendingTurn sendings)
    {
        SheetSending asked = await JsonBody.ReadAsync(request, Read);
        SheetWish wish = SheetWish.Of(kind, asked.Language, asked.Units);
        // A letter that is handed over cannot be called back: whoever leaves the page does not stop it half-way.
        using IDisposable mine = await sendings.TakeAsync(asked.Id, request.HttpContext.RequestAborted);
        if (await database.Journal.AsNoTracking().FirstOrDefaultAsync(entry => entry.Change == asked.Id, request.HttpContext.RequestAborted) is { } earlier)
        {
            return earlier.Record == id
                ? TypedResults.Ok(new SheetSent(true, null, AnswerIn(earlier)))
                : throw new BadInputException(StatusCodes.Status409Conflict, "This sending belongs to another case.", []);
        }

        if (await book.FindAsync(request.HttpContext.RequestAborted) is not { } server)
        {
            return TypedResults.Ok(new SheetSent(false, MailFault.NotSet, ""));
        }

        using MimeMessage message = await SheetEndpoints.OfCaseAsync(
            id, wish, database, priors, queue,
            (sheet, workshop, _) => SheetMessage.ToSend(sheet, workshop?.Text("name"), server.From, asked.To, asked.Id, clock.GetUtcNow()), request.HttpContext.RequestAborted);
        SheetSent sent = await MailSending.SendAsync(server, book.PasswordOf(server), message, request.HttpContext.RequestAborted);
        if (sent.IsSent)
        {
            await RememberAsync(id, kind, asked, sent, person, database, journal, clock);
        }

        return TypedResults.Ok(sent);
    }

    // The change bears the sending's id: asked for again, it is found.
    private static async Task RememberAsync(
        Guid id, string kind, SheetSending asked, SheetSent sent, ClaimsPrincipal person, WorkshopDatabase database, Journal journal, TimeProvider clock)
    {
        StoredRecord stored = await database.Records.AsNoTracking().SingleAsync(record => record.Id == id);
        JsonElement text = JsonSerializer.SerializeToElement($"{kind}, {asked.To}: {sent.Answer}", Workshop.WorkshopJson.Default.String);
        Change change = new(
            asked.Id, RecordKind.Case, id, new Dictionary<string, JsonElement> { ["sentSheet"] = text },
            new Dictionary<string, IReadOnlyList<Guid>> { ["sentSheet"] = Journal.StateOf(stored)["sentSheet"].Ids }, clock.GetUtcNow());
        ChangeResult kept = await journal.TakeInAsync(change, "", AccountClaims.AuthorOf(person), CancellationToken.None);
        if (kept.Status == ChangeStatus.Refused)
        {
            throw new InvalidOperationException($"The letter was sent, and could not be written down: {string.Join("; ", kept.Problems)}");
        }
    }

    private static string AnswerIn(JournalEntry entry)
    {
        using JsonDocument change = JsonDocument.Parse(entry.Json);
        return change.RootElement.TryGetProperty("set", out JsonElement set) && set.TryGetProperty("sentSheet", out JsonElement text) && text.ValueKind == JsonValueKind.String ? text.GetString()! : "";
    }

    private static SheetSending? Read(JsonFields fields)
    {
        string? to = fields.Text("to", MostCharacters, required: true)?.Trim(), language = fields.Text("language", 2, required: true), units = fields.Text("units", 10, required: true);
        Guid? id = fields.Text("id", 36, required: true) is { } text && Guid.TryParseExact(text, "D", out Guid parsed) && parsed.Version == 7 ? parsed : null;
        if (id is null)
        {
            fields.Problems.Add("id", "is no UUID", "a UUID of version 7");
        }

        if (to is not null && !IsAddress(to))
        {
            fields.Problems.Add("to", "is no e-mail address", "an address such as odo@example.org");
        }

        return fields.Problems.Any || to is null || language is null || units is null ? null : new(id!.Value, to, language, units);
    }

    // A field that says null is a field that is not there.
    private static string? Optional(JsonFields fields, string name) =>
        fields.Has(name) && fields.Element(name, "a text") is { ValueKind: not JsonValueKind.Null } ? fields.Text(name, MostCharacters) : null;

    private static MailSettings Shown(MailServer server) => new(server.Host, server.Port, MailBook.SecurityOf(server), server.User, server.From, server.Secret is not null);

    private static bool IsThisMachine(string host) => host.Equals("localhost", StringComparison.OrdinalIgnoreCase) || (IPAddress.TryParse(host, out IPAddress? address) && IPAddress.IsLoopback(address));

    // One address and nothing else: no name, no list, no line that would add a header.
    private static bool IsAddress(string text) => text.All(c => !char.IsControl(c) && !char.IsWhiteSpace(c) && c is not (',' or ';' or '<' or '>'))
        && text.Contains('@', StringComparison.Ordinal) && MailboxAddress.TryParse(text, out MailboxAddress? parsed) && parsed?.Address == text;
}
