using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Mail;

/// <summary>Sheets sent to a mail server that is not ours: what it takes, what it refuses, that a sending happens once, and who learns of the password.</summary>
public sealed class MailTests
{
    private readonly Guid _yard = Guid.CreateVersion7(), _case = Guid.CreateVersion7();

    [Fact]
    public async Task A_sheet_is_sent_once_confirmed_by_the_servers_answer_and_kept_in_the_cases_history()
    {
        using SmtpServer smtp = await SmtpServer.StartAsync();
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served), principal = await served.AsAsync(Role.Principal);
        await principal.KeepAsync(Made.Change(RecordKind.Workshop, Ids.Workshop, new() { ["name"] = "Reiher Gärten" }));
        Assert.False((await desk.GetFromJsonAsync("/api/mail", WorkshopJson.Default.MailState))!.IsSet);
        Assert.Equal(MailFault.NotSet, (await SendAsync(desk, Asked("odo@example.org"))).Fault);
        await SetAsync(principal, smtp.Port);
        Assert.Equal("werkbank@reiher.example", (await desk.GetFromJsonAsync("/api/mail", WorkshopJson.Default.MailState))!.From);

        SheetSending asked = Asked("odo@example.org");
        SheetSent sent = await SendAsync(desk, asked);
        Assert.Equal((true, (MailFault?)null), (sent.IsSent, sent.Fault));
        Assert.Contains("taken as 4711", sent.Answer, StringComparison.Ordinal);
        JsonNode letter = await smtp.TakenAsync();
        Assert.Equal(("werkbank@reiher.example", "Reiher Gärten <werkbank@reiher.example>", "odo@example.org"), ((string?)letter["mail_from"], (string?)letter["from"], (string?)letter["to"]));
        Assert.Equal("odo@example.org", (string?)Assert.Single(letter["rcpt_tos"]!.AsArray()));
        Assert.EndsWith(": Sorrel Corner", (string?)letter["subject"], StringComparison.Ordinal);
        Assert.Equal(($"<{asked.Id:N}@reiher.example>", (string?)null, 0), ((string?)letter["id"], (string?)letter["unsent"], (int)letter["defects"]!));
        string text = await desk.GetStringAsync($"/api/cases/{_case}/sheets/quote?form=text&language=de");
        Assert.Equal(text.Trim(), ((string)letter["text"]!).Replace("\r\n", "\n", StringComparison.Ordinal).Trim());
        JsonArray pdf = Assert.Single(letter["files"]!.AsArray())!.AsArray();
        Assert.Equal(("quote-sorrel-corner.pdf", "application/pdf", "%PDF-"), ((string?)pdf[0], (string?)pdf[1], (string?)pdf[2]));

        // The answer was lost: asked for again, two at once, it is not sent again.
        SheetSent[] again = await Task.WhenAll(SendAsync(desk, asked), SendAsync(desk, asked));
        Assert.All(again, one => Assert.True(one.IsSent));
        Assert.Equal(0, smtp.Waiting);

        // In the history, by whom and with what the server said; another sending stands beside it.
        Assert.True((await SendAsync(desk, Asked("tamsin@example.org"))).IsSent);
        Assert.Equal("tamsin@example.org", (string?)(await smtp.TakenAsync())["to"]);
        HistoryEntry[] history = [.. (await desk.GetFromJsonAsync($"/api/records/{_case}/history", WorkshopJson.Default.IReadOnlyListHistoryEntry))!.Where(entry => entry.Change.Set.ContainsKey("sentSheet"))];
        Assert.Equal(["quote, odo@example.org", "quote, tamsin@example.org"], history.Select(entry => entry.Change.Set["sentSheet"].GetString()!.Split(':')[0]));
        Assert.All(history, entry => Assert.Equal(("Robin Desk", true), (entry.By, entry.Change.Set["sentSheet"].GetString()!.Contains("taken as 4711", StringComparison.Ordinal))));
    }

    [Fact]
    public async Task What_the_mail_server_does_not_take_is_not_called_sent_and_not_kept()
    {
        using SmtpServer smtp = await SmtpServer.StartAsync();
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served), principal = await served.AsAsync(Role.Principal);
        await SetAsync(principal, smtp.Port);
        SheetSent refused = await SendAsync(desk, Asked("odo@nowhere.example"));
        Assert.Equal((false, (MailFault?)MailFault.Refused), (refused.IsSent, refused.Fault));
        Assert.Contains("no such mailbox here", refused.Answer, StringComparison.Ordinal);
        await SetAsync(principal, smtp.Port, password: "wrong");
        Assert.Equal(MailFault.SignIn, (await SendAsync(desk, Asked("odo@example.org"))).Fault);
        // Nobody listens there.
        await SetAsync(principal, 1);
        Assert.Equal(MailFault.Unreachable, (await SendAsync(desk, Asked("odo@example.org"))).Fault);
        Assert.Equal(0, smtp.Waiting);
        Assert.DoesNotContain("sentSheet", await desk.GetStringAsync($"/api/records/{_case}"), StringComparison.Ordinal);
        await principal.DeleteAsync("/api/mail/settings");
        Assert.Equal(MailFault.NotSet, (await SendAsync(desk, Asked("odo@example.org"))).Fault);
    }

    [Fact]
    public async Task Neither_password_nor_letter_goes_to_a_server_whose_certificate_nobody_vouches_for()
    {
        string folder = TestPlaces.Sqlite().Folder;
        using SmtpServer smtp = await SmtpServer.StartAsync(folder);
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served), principal = await served.AsAsync(Role.Principal);
        await SetAsync(principal, smtp.Port, MailSecurity.StartTls);
        SheetSent sent = await SendAsync(desk, Asked("odo@example.org"));
        Assert.Equal((false, (MailFault?)MailFault.Unreachable, 0), (sent.IsSent, sent.Fault, smtp.Waiting));
    }

    [Fact]
    public async Task The_password_is_kept_protected_and_never_sent_back_and_goes_with_its_server()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served), principal = await served.AsAsync(Role.Principal);
        await SetAsync(principal, 2525);
        string shown = await principal.GetStringAsync("/api/mail/settings");
        Assert.DoesNotContain("hedgehogs", shown, StringComparison.Ordinal);
        Assert.True((bool)JsonNode.Parse(shown)!["hasPassword"]!);
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.GetAsync("/api/mail/settings")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.PutAsync("/api/mail/settings", Served.Json("{}"))).StatusCode);
        Assert.DoesNotContain("hedgehogs", await desk.GetStringAsync("/api/records?since=0"), StringComparison.Ordinal);
        await using (WorkshopDatabase database = await served.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync())
        {
            Assert.DoesNotContain("hedgehogs", (await database.MailServers.SingleAsync()).Secret!, StringComparison.Ordinal);
        }

        // The address changes and the password stays; another server does not get the password of this one.
        NewMailSettings settings = new("127.0.0.1", 2525, MailSecurity.None, SmtpServer.User, "other@reiher.example", null);
        Assert.True((await PutAsync(principal, settings)).HasPassword);
        Assert.False((await PutAsync(principal, settings with { Host = "localhost" })).HasPassword);
    }

    [Theory]
    [InlineData("""{"host":"mail.example.org","port":25,"security":"none","user":"bench","from":"a@example.org","password":"x"}""", "security")]
    [InlineData("""{"host":"mail example","port":25,"security":"tls","from":"a@example.org"}""", "host")]
    [InlineData("""{"host":"mail.example.org","port":0,"security":"tls","from":"a@example.org"}""", "port")]
    [InlineData("""{"host":"mail.example.org","port":25,"security":"maybe","from":"a@example.org"}""", "security")]
    [InlineData("""{"host":"mail.example.org","port":25,"security":"tls","from":"a@example.org, b@example.org"}""", "from")]
    public async Task Settings_that_no_letter_could_go_by_or_that_give_the_password_away_are_refused(string settings, string place)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        using HttpResponseMessage answer = await principal.PutAsync("/api/mail/settings", Served.Json(settings));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(place, (string?)JsonNode.Parse(await answer.Content.ReadAsStringAsync())!["problems"]![0]!["place"]);
    }

    [Theory]
    [InlineData("odo")]
    [InlineData("odo@example.org,tamsin@example.org")]
    [InlineData("Odo <odo@example.org>")]
    [InlineData("odo@example.org\r\nBcc: all@example.org")]
    public async Task One_address_and_nothing_else_is_sent_to(string to)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await MadeAsync(served);
        using HttpResponseMessage answer = await desk.PostAsync($"/api/cases/{_case}/sheets/quote/sending", Served.Json(Asked(to), WorkshopJson.Default.SheetSending));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    private static SheetSending Asked(string to) => new(Guid.CreateVersion7(), to, "de", "metric");

    private static Task<MailSettings> SetAsync(HttpClient principal, int port, MailSecurity security = MailSecurity.None, string password = SmtpServer.Password) =>
        PutAsync(principal, new("127.0.0.1", port, security, SmtpServer.User, "werkbank@reiher.example", password));

    private static async Task<MailSettings> PutAsync(HttpClient principal, NewMailSettings settings)
    {
        using HttpResponseMessage answer = await principal.PutAsync("/api/mail/settings", Served.Json(settings, WorkshopJson.Default.NewMailSettings));
        Assert.True(answer.StatusCode == HttpStatusCode.OK, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.MailSettings))!;
    }

    private async Task<SheetSent> SendAsync(HttpClient desk, SheetSending asked)
    {
        using HttpResponseMessage answer = await desk.PostAsync($"/api/cases/{_case}/sheets/quote/sending", Served.Json(asked, WorkshopJson.Default.SheetSending));
        Assert.True(answer.StatusCode == HttpStatusCode.OK, await answer.Content.ReadAsStringAsync());
        return (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.SheetSent))!;
    }

    private async Task<HttpClient> MadeAsync(Served served)
    {
        HttpClient desk = await served.AsAsync(Role.Desk);
        await desk.KeepAsync(
            Made.Yard(_yard), Made.Case(_case, _yard),
            Made.Observation(Guid.CreateVersion7(), _yard, _case, """{"test":"loop-resistance","ohms":184,"leadOhms":0.3,"at":"2026-05-14T09:00:00+02:00"}"""));
        return desk;
    }
}
