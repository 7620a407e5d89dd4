using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Swardloop.Model.Advising;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests;

/// <summary>The server's part in tests of the page: takes changes in once each, refuses a yard called "refuse me", and can be out of reach.</summary>
internal sealed class FakeWorkshop : HttpMessageHandler
{
    // Scenes are devices of one workshop unless a test says otherwise.
    private static readonly Guid TheWorkshop = Guid.CreateVersion7();

    private readonly Dictionary<Guid, RecordState> _records = [];
    private readonly HashSet<Guid> _journal = [];
    private long _version;

    public bool IsOutOfReach { get; set; }

    public Me Me { get; set; } = new("Robin", "robin@swardloop.example", Role.Principal, false, TheWorkshop, false, false, "build-1");

    public IReadOnlyDictionary<Guid, RecordState> Records => _records;

    /// <summary>Bytes of photos.</summary>
    public Dictionary<Guid, byte[]> Photos { get; } = [];

    /// <summary>How often bytes came.</summary>
    public int PhotosPut { get; private set; }

    /// <summary>Whether the answers to photos are lost on their way.</summary>
    public bool LosesPhotoAnswers { get; set; }

    /// <summary>What photos are refused with; null when they are taken in.</summary>
    public HttpStatusCode? PhotoRefusal { get; set; }

    /// <summary>Where people are signed in.</summary>
    public List<SessionEntry> Sessions { get; } = [];

    /// <summary>Who was invited.</summary>
    public List<NewPerson> Invited { get; } = [];

    /// <summary>What would go if anybody were forgotten.</summary>
    public ForgetPreview Preview { get; set; } = new([], 0, 0);

    /// <summary>Who was forgotten, and what was kept.</summary>
    public List<(string Owner, ForgetRequest Asked)> Forgotten { get; } = [];

    /// <summary>Somebody else's change.</summary>
    public void Take(Change change, string by)
    {
        if (_journal.Add(change.Id))
        {
            _records[change.Record] = (_records.GetValueOrDefault(change.Record) ?? RecordState.New(change.Record, change.Kind)).With(change, by, ++_version);
        }
    }

    protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        if (IsOutOfReach)
        {
            throw new HttpRequestException("no route");
        }

        string path = request.RequestUri!.PathAndQuery.TrimStart('/');
        string body = request.Content is null ? "" : await request.Content.ReadAsStringAsync(cancellationToken);
        HttpResponseMessage answer = path switch
        {
            "api/changes" when body.Contains("cannot be read", StringComparison.Ordinal) => new(HttpStatusCode.BadRequest) { Content = new StringContent("""{"title":"Bad Request","status":400}""") },
            "api/me" => Json(Me, WorkshopJson.Default.Me),
            "api/sign-in" => SignIn(body),
            "api/changes" => Json(Deliver(JsonSerializer.Deserialize(body, WorkshopJson.Default.ChangeBatch)!), WorkshopJson.Default.ChangeResults),
            "api/bench" => Json(new Bench(_version, [], [], [], 0), WorkshopJson.Default.Bench),
            "api/priors" => Text(Encoding.UTF8.GetString(PriorsFile.Empty.ToUtf8())),
            "api/people" when request.Method == HttpMethod.Post => Invite(JsonSerializer.Deserialize(body, WorkshopJson.Default.NewPerson)!),
            "api/people" => Json<IReadOnlyList<PersonEntry>>([], WorkshopJson.Default.IReadOnlyListPersonEntry),
            "api/mail" => Json(new MailState(false, null), WorkshopJson.Default.MailState),
            "api/mail/settings" => Json(new MailSettings("", 587, MailSecurity.StartTls, null, "", false), WorkshopJson.Default.MailSettings),
            "api/sessions" => Json<IReadOnlyList<SessionEntry>>(Sessions, WorkshopJson.Default.IReadOnlyListSessionEntry),
            _ when path.StartsWith("api/sessions/", StringComparison.Ordinal) => EndSession(Guid.Parse(path["api/sessions/".Length..])),
            _ when path.StartsWith("api/owners/", StringComparison.Ordinal) => Forget(request.Method, path.Split('/')[2], body),
            _ when path.StartsWith("api/photos/", StringComparison.Ordinal) => await PhotoAsync(request, Guid.Parse(path["api/photos/".Length..].Split('?')[0]), cancellationToken),
            _ when path.StartsWith("api/records?", StringComparison.Ordinal) => Json(Page(path), WorkshopJson.Default.RecordPage),
            _ => new(HttpStatusCode.NotFound),
        };
        answer.Headers.Date = DateTimeOffset.UtcNow;
        return answer;
    }

    private async Task<HttpResponseMessage> PhotoAsync(HttpRequestMessage request, Guid id, CancellationToken cancellation)
    {
        if (request.Method == HttpMethod.Get)
        {
            return Photos.TryGetValue(id, out byte[]? kept) ? new(HttpStatusCode.OK) { Content = new ByteArrayContent(kept) } : new(HttpStatusCode.NotFound);
        }

        PhotosPut++;
        if (PhotoRefusal is { } status)
        {
            return new(status) { Content = new StringContent("""{"detail":"This is no photo that can be shown."}""") };
        }

        if (!_records.ContainsKey(id))
        {
            return new(HttpStatusCode.NotFound);
        }

        byte[] bytes = await request.Content!.ReadAsByteArrayAsync(cancellation);
        if (!Photos.TryAdd(id, bytes) && !Photos[id].AsSpan().SequenceEqual(bytes))
        {
            return new(HttpStatusCode.Conflict);
        }

        return LosesPhotoAnswers ? throw new HttpRequestException("cut off") : new(HttpStatusCode.NoContent);
    }

    private HttpResponseMessage Invite(NewPerson person)
    {
        Invited.Add(person);
        return Json(
            new PersonEntry(Guid.CreateVersion7(), person.Name, person.Email, person.Role, IsLocked: false, HasPasskey: false, "otter-sedge-1234", new(2026, 5, 14, 9, 0, 0, TimeSpan.Zero)),
            WorkshopJson.Default.PersonEntry);
    }

    private HttpResponseMessage EndSession(Guid session) => new(Sessions.RemoveAll(one => one.Id == session) > 0 ? HttpStatusCode.NoContent : HttpStatusCode.NotFound);

    private HttpResponseMessage Forget(HttpMethod method, string owner, string body)
    {
        if (method == HttpMethod.Get)
        {
            return Json(Preview, WorkshopJson.Default.ForgetPreview);
        }

        Forgotten.Add((owner, JsonSerializer.Deserialize(body, WorkshopJson.Default.ForgetRequest)!));
        return Json(new ForgetReport(3, 5, 2, 1, 1, DateTimeOffset.UtcNow, ["workshop.rescued-1.db"]), WorkshopJson.Default.ForgetReport);
    }

    private HttpResponseMessage SignIn(string body)
    {
        SignIn tried = JsonSerializer.Deserialize(body, WorkshopJson.Default.SignIn)!;
        if (tried.Password != "otters like brambles")
        {
            return new(HttpStatusCode.Unauthorized) { Content = new StringContent("""{"title":"Unauthorized","status":401,"detail":"Address and password do not go together."}""") };
        }

        Me = Me with { Name = "Robin", Email = tried.Email, Role = Role.Principal };
        return Json(Me, WorkshopJson.Default.Me);
    }

    private ChangeResults Deliver(ChangeBatch batch) => new([.. batch.Changes.Select(change =>
    {
        if (change.Set.TryGetValue("name", out JsonElement name) && name.ValueEquals("refuse me"))
        {
            return new ChangeResult(change.Id, ChangeStatus.Refused, [new("set.name", "is refused", "another name")], null);
        }

        Take(change, Me.Name!);
        RecordState record = _records[change.Record];
        return new(change.Id, record.Conflicts.Any() ? ChangeStatus.Conflict : ChangeStatus.Kept, [], record);
    })]);

    private RecordPage Page(string path)
    {
        long since = long.Parse(path.Split("since=")[1].Split('&')[0], System.Globalization.CultureInfo.InvariantCulture);
        RecordState[] all = [.. _records.Values.Where(record => record.Version > since).OrderBy(record => record.Version)];
        return new(all, all.Length > 0 ? all[^1].Version : since, true);
    }

    private static HttpResponseMessage Json<T>(T value, JsonTypeInfo<T> type) => Text(JsonSerializer.Serialize(value, type));

    private static HttpResponseMessage Text(string text) => new(HttpStatusCode.OK) { Content = new StringContent(text, Encoding.UTF8, "application/json") };
}
