using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Device;

/// <summary>The server, as the page calls it.</summary>
/// <param name="http">Reaches it.</param>
/// <param name="clock">The device's clock, to be compared with the server's.</param>
public sealed partial class WorkshopServer(HttpClient http, TimeProvider clock)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>For photos: half a megabyte at the edge of reception.</summary>
    private static readonly TimeSpan PhotoPatience = TimeSpan.FromMinutes(3);

    private static WorkshopJson Json => WorkshopJson.Default;

    /// <summary>By how much the device's clock was ahead of the server's at its last answer; null before, and when the answer did not say.</summary>
    public TimeSpan? ClockAhead { get; private set; }

    public Task<Me> MeAsync() => GetAsync("api/me", Json.Me);

    public Task<Me> MakeFirstAccountAsync(FirstAccount account) => SendAsync(HttpMethod.Post, "api/first-account", account, Json.FirstAccount, Json.Me);

    public Task<Me> SignInAsync(SignIn signIn) => SendAsync(HttpMethod.Post, "api/sign-in", signIn, Json.SignIn, Json.Me);

    public Task SignOutAsync() => SendAsync(HttpMethod.Post, "api/sign-out", null);

    public Task<ChangeResults> DeliverAsync(IReadOnlyList<Change> changes) =>
        SendAsync(HttpMethod.Post, "api/changes", new ChangeBatch(changes), Json.ChangeBatch, Json.ChangeResults);

    public Task<RecordPage> RecordsAsync(long since, int limit) => GetAsync($"api/records?since={since}&limit={limit}", Json.RecordPage);

    public Task<Bench> BenchAsync() => GetAsync("api/bench", Json.Bench);

    public Task<IReadOnlyList<PersonEntry>> PeopleAsync() => GetAsync("api/people", Json.IReadOnlyListPersonEntry);

    /// <summary>Adds a person; without a password the answer has the invitation's code.</summary>
    public Task<PersonEntry> AddPersonAsync(NewPerson person) => SendAsync(HttpMethod.Post, "api/people", person, Json.NewPerson, Json.PersonEntry);

    public Task<IReadOnlyList<PasskeyEntry>> PasskeysAsync() => GetAsync("api/passkeys", Json.IReadOnlyListPasskeyEntry);

    /// <summary>Options for a new passkey, as the browser wants them.</summary>
    public Task<string> PasskeyCreationAsync() => PostForTextAsync("api/passkeys/creation-options");

    /// <summary>Options for asking for a passkey, as the browser wants them.</summary>
    public Task<string> PasskeyRequestAsync() => PostForTextAsync("api/passkeys/request-options");

    public Task AddPasskeyAsync(string credential) => SendAsync(HttpMethod.Post, "api/passkeys", Body(credential));

    public Task NamePasskeyAsync(string id, string name) => SendAsync(HttpMethod.Put, $"api/passkeys/{id}", Body(new PasskeyName(name), Json.PasskeyName));

    public Task RemovePasskeyAsync(string id) => SendAsync(HttpMethod.Delete, $"api/passkeys/{id}", null);

    /// <summary>Signs in with a passkey's credential.</summary>
    public async Task<Me> SignInByPasskeyAsync(string credential)
    {
        await SendAsync(HttpMethod.Post, "api/passkeys/sign-in", Body(credential)).ConfigureAwait(true);
        return await MeAsync().ConfigureAwait(true);
    }

    public Task ChangePasswordAsync(PasswordChange change) => SendAsync(HttpMethod.Put, "api/me/password", Body(change, Json.PasswordChange));

    public Task<IReadOnlyList<HistoryEntry>> HistoryAsync(Guid record) => GetAsync($"api/records/{record}/history", Json.IReadOnlyListHistoryEntry);

    public Task ChangeRoleAsync(Guid person, Role role) => SendAsync(HttpMethod.Put, $"api/people/{person}/role", Body(new RoleChange(role), Json.RoleChange));

    public Task LockAsync(Guid person, bool isLocked) => SendAsync(HttpMethod.Post, $"api/people/{person}/lock", Body(new LockChange(isLocked), Json.LockChange));

    /// <summary>What would go if an owner were forgotten.</summary>
    public Task<ForgetPreview> ForgetPreviewAsync(Guid owner) => GetAsync($"api/owners/{owner}/forget", Json.ForgetPreview);

    /// <summary>Forgets an owner, but for the texts that were looked at and stay.</summary>
    public Task<ForgetReport> ForgetAsync(Guid owner, IReadOnlyList<string> keep) =>
        SendAsync(HttpMethod.Post, $"api/owners/{owner}/forget", new ForgetRequest(keep), Json.ForgetRequest, Json.ForgetReport);

    /// <summary>Where one is signed in; for the principal, where anybody is.</summary>
    public Task<IReadOnlyList<SessionEntry>> SessionsAsync() => GetAsync("api/sessions", Json.IReadOnlyListSessionEntry);

    public Task EndSessionAsync(Guid session) => SendAsync(HttpMethod.Delete, $"api/sessions/{session}", null);

    /// <summary>Sends the bytes of a photo whose record the server has. The same again is no other.</summary>
    public async Task PutPhotoAsync(Guid photo, byte[] jpeg)
    {
        ByteArrayContent body = new(jpeg);
        body.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        using HttpRequestMessage request = new(HttpMethod.Put, $"api/photos/{photo}") { Content = body };
        (await AnswerAsync(request, PhotoPatience).ConfigureAwait(true)).Dispose();
    }

    /// <summary>The bytes of a photo.</summary>
    public async Task<byte[]> PhotoAsync(Guid photo, bool isLarge)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, $"api/photos/{photo}?size={(isLarge ? "full" : "small")}");
        using HttpResponseMessage answer = await AnswerAsync(request, PhotoPatience).ConfigureAwait(true);
        return await answer.Content.ReadAsByteArrayAsync().ConfigureAwait(true);
    }

    public async Task<string> PriorsAsync()
    {
        using HttpResponseMessage answer = await AnswerAsync(new(HttpMethod.Get, "api/priors")).ConfigureAwait(true);
        return await answer.Content.ReadAsStringAsync().ConfigureAwait(true);
    }

    /// <summary>Posts or puts a body without caring for what comes back.</summary>
    public async Task SendAsync(HttpMethod method, string path, HttpContent? body)
    {
        using HttpRequestMessage request = new(method, path) { Content = body };
        (await AnswerAsync(request).ConfigureAwait(true)).Dispose();
    }

    /// <summary>Asks for JSON.</summary>
    public async Task<T> GetAsync<T>(string path, JsonTypeInfo<T> type)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, path);
        using HttpResponseMessage answer = await AnswerAsync(request).ConfigureAwait(true);
        return await ReadAsync(answer, type).ConfigureAwait(true);
    }

    /// <summary>A body as JSON.</summary>
    public static HttpContent Body<T>(T value, JsonTypeInfo<T> type)
    {
        ByteArrayContent content = new(JsonSerializer.SerializeToUtf8Bytes(value, type));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }

    private static ByteArrayContent Body(string json)
    {
        ByteArrayContent content = new(Encoding.UTF8.GetBytes(json));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }

    private async Task<T> PostAsync<T>(string path, JsonTypeInfo<T> type)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, path);
        using HttpResponseMessage answer = await AnswerAsync(request).ConfigureAwait(true);
        return await ReadAsync(answer, type).ConfigureAwait(true);
    }

    private async Task<string> PostForTextAsync(string path)
    {
        using HttpRequestMessage request = new(HttpMethod.Post, path);
        using HttpResponseMessage answer = await AnswerAsync(request).ConfigureAwait(true);
        return await answer.Content.ReadAsStringAsync().ConfigureAwait(true);
    }

    private async Task<TAnswer> SendAsync<TBody, TAnswer>(
        HttpMethod method, string path, TBody body, JsonTypeInfo<TBody> bodyType, JsonTypeInfo<TAnswer> answerType)
    {
        using HttpRequestMessage request = new(method, path) { Content = Body(body, bodyType) };
        using HttpResponseMessage answer = await AnswerAsync(request).ConfigureAwait(true);
        return await ReadAsync(answer, answerType).ConfigureAwait(true);
    }

    private static async Task<T> ReadAsync<T>(HttpResponseMessage answer, JsonTypeInfo<T> type)
    {
        try
        {
            byte[] body = await answer.Content.ReadAsByteArrayAsync().ConfigureAwait(true);
            return JsonSerializer.Deserialize(body, type) ?? throw new ServerRefusalException(answer.StatusCode, "an empty answer", []);
        }
        catch (JsonException wrong)
        {
            // A captive portal of a guest network answers anything with its own page: that is no connection.
            throw new HttpRequestException("The answer is not the workshop's.", wrong);
        }
    }

    private async Task<HttpResponseMessage> AnswerAsync(HttpRequestMessage request, TimeSpan? howLong = null)
    {
        using CancellationTokenSource patience = new(howLong ?? Patience);
        HttpResponseMessage answer;
        try
        {
            answer = await http.SendAsync(request, patience.Token).ConfigureAwait(true);
        }
        catch (OperationCanceledException late)
        {
            throw new HttpRequestException("The workshop did not answer in time.", late);
        }

        ClockAhead = answer.Headers.Date is { } date ? clock.GetUtcNow() - date : null;
        if (answer.IsSuccessStatusCode)
        {
            return answer;
        }

        using (answer)
        {
            throw await RefusalAsync(answer).ConfigureAwait(true);
        }
    }

    private static async Task<Exception> RefusalAsync(HttpResponseMessage answer)
    {
        if (answer.StatusCode is HttpStatusCode.BadGateway or HttpStatusCode.GatewayTimeout or HttpStatusCode.ServiceUnavailable)
        {
            return new HttpRequestException($"The workshop's server answers {(int)answer.StatusCode}.", null, answer.StatusCode);
        }

        string text = Encoding.UTF8.GetString(await answer.Content.ReadAsByteArrayAsync().ConfigureAwait(true));
        string message = $"{(int)answer.StatusCode}";
        List<FieldProblem> problems = [];
        try
        {
            using JsonDocument document = JsonDocument.Parse(text);
            message = Text(document.RootElement, "detail") ?? Text(document.RootElement, "title") ?? message;
            if (document.RootElement.TryGetProperty("problems", out JsonElement listed) && listed.ValueKind == JsonValueKind.Array)
            {
                problems.AddRange(listed.EnumerateArray().Select(each => new FieldProblem(
                    Text(each, "place") ?? "", Text(each, "message") ?? "", Text(each, "allowed") ?? "")));
            }
        }
        catch (JsonException)
        {
            // Not our server's words; the status says what there is to say.
        }

        return new ServerRefusalException(answer.StatusCode, message, problems);
    }

    private static string? Text(JsonElement of, string name) =>
        of.ValueKind == JsonValueKind.Object && of.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;
}
