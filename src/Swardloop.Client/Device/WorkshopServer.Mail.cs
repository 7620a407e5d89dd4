using Swardloop.Workshop.Api;

namespace Swardloop.Client.Device;

/// <content>The workshop's mail server.</content>
public sealed partial class WorkshopServer
{
    /// <summary>Whether sheets can be sent from here.</summary>
    public Task<MailState> MailAsync() => GetAsync("api/mail", Json.MailState);

    /// <summary>The mail server, without its password.</summary>
    public Task<MailSettings> MailSettingsAsync() => GetAsync("api/mail/settings", Json.MailSettings);

    public Task<MailSettings> SetMailAsync(NewMailSettings settings) => SendAsync(HttpMethod.Put, "api/mail/settings", settings, Json.NewMailSettings, Json.MailSettings);

    public Task RemoveMailAsync() => SendAsync(HttpMethod.Delete, "api/mail/settings", null);

    /// <summary>Sends a sheet. Mail servers take their time.</summary>
    public async Task<SheetSent> SendSheetAsync(Guid @case, string kind, SheetSending sending)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, $"api/cases/{@case}/sheets/{kind}/sending") { Content = Body(sending, Json.SheetSending) };
        using HttpResponseMessage answer = await AnswerAsync(request, PhotoPatience).ConfigureAwait(true);
        return await ReadAsync(answer, Json.SheetSent).ConfigureAwait(true);
    }
}
