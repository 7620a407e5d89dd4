using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>What a cookie is worth after its session is over.</summary>
public sealed class SessionTests
{
    [Fact]
    public async Task A_copied_cookie_opens_nothing_after_signing_out()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = await served.AsAsync(Role.Desk);
        string cookie = await CookieAsync(served);
        using HttpClient copy = new(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = served.Address };
        copy.DefaultRequestHeaders.Add("Cookie", cookie);
        Assert.Equal(HttpStatusCode.OK, (await copy.GetAsync("/api/bench")).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await copy.PostAsync("/api/sign-out", null)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await copy.GetAsync("/api/bench")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/api/bench")).StatusCode); // another session of the same person
    }

    [Fact]
    public async Task A_locked_person_reads_writes_and_hears_nothing_more_at_once()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        using HttpClient desk = await served.AsAsync(Role.Desk);
        using StreamReader events = new(await desk.GetStreamAsync("/api/events"));
        Assert.Equal("event: hello", await events.ReadLineAsync(TestContext.Current.CancellationToken));
        Guid person = (await principal.GetFromJsonAsync("/api/people", WorkshopJson.Default.IReadOnlyListPersonEntry))!.Single(one => one.Role == Role.Desk).Id;
        Assert.Equal(HttpStatusCode.OK, (await principal.PostAsync($"/api/people/{person}/lock", Served.Json("""{"isLocked":true}"""))).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await desk.GetAsync("/api/bench")).StatusCode);
        await principal.KeepAsync(Made.Owner(Guid.CreateVersion7()));
        Assert.DoesNotContain("event: change", await events.ReadToEndAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_clock_set_back_opens_nothing_to_a_locked_person()
    {
        SetClock clock = new();
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite(), clock);
        using HttpClient principal = await served.AsAsync(Role.Principal), desk = await served.AsAsync(Role.Desk), again = served.Client();
        Guid person = (await principal.GetFromJsonAsync("/api/people", WorkshopJson.Default.IReadOnlyListPersonEntry))!.Single(one => one.Role == Role.Desk).Id;
        Assert.Equal(HttpStatusCode.OK, (await principal.PostAsync($"/api/people/{person}/lock", Served.Json("""{"isLocked":true}"""))).StatusCode);
        clock.Shift = TimeSpan.FromDays(-2);
        HttpResponseMessage written = await desk.PostAsync("/api/changes", Served.Json(new ChangeBatch([Made.Owner(Guid.CreateVersion7())]), WorkshopJson.Default.ChangeBatch));
        Assert.Equal(HttpStatusCode.Unauthorized, written.StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await desk.GetAsync("/api/bench")).StatusCode);
        Assert.NotEqual(HttpStatusCode.OK, (await Served.SignInAsync(again, "Desk@example.org", Served.Password)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await principal.GetAsync("/api/bench")).StatusCode);
    }

    [Fact]
    public async Task Sessions_are_listed_by_person_and_device_and_ended_from_another_one_but_never_a_strangers()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient here = await served.AsAsync(Role.Desk), there = await served.AsAsync(Role.Desk), other = await served.AsAsync(Role.Technician);
        IReadOnlyList<SessionEntry> own = (await here.GetFromJsonAsync("/api/sessions", WorkshopJson.Default.IReadOnlyListSessionEntry))!;
        Assert.Equal(2, own.Count);
        Guid ended = own.Single(session => !session.IsThis).Id;
        Assert.Equal(HttpStatusCode.NotFound, (await other.DeleteAsync($"/api/sessions/{ended}")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await there.GetAsync("/api/bench")).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await here.DeleteAsync($"/api/sessions/{ended}")).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await there.GetAsync("/api/bench")).StatusCode);
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Assert.Equal(3, (await principal.GetFromJsonAsync("/api/sessions", WorkshopJson.Default.IReadOnlyListSessionEntry))!.Select(session => session.Person).Distinct().Count());
    }

    [Fact]
    public async Task A_new_password_ends_the_persons_other_sessions()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient here = await served.AsAsync(Role.Desk), there = await served.AsAsync(Role.Desk);
        Assert.Equal(HttpStatusCode.OK, (await here.PutAsync(
            "/api/me/password", Served.Json(new PasswordChange(Served.Password, "other otters wake"), WorkshopJson.Default.PasswordChange))).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await there.GetAsync("/api/bench")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await here.GetAsync("/api/bench")).StatusCode);
    }

    private static async Task<string> CookieAsync(Served served)
    {
        using HttpClient bare = new(new SocketsHttpHandler { UseCookies = false }) { BaseAddress = served.Address };
        HttpResponseMessage signedIn = await Served.SignInAsync(bare, "Desk@example.org", Served.Password);
        return signedIn.Headers.GetValues("Set-Cookie").Single().Split(';')[0];
    }

    /// <summary>The machine's clock, set to another time by a person.</summary>
    private sealed class SetClock : TimeProvider
    {
        public TimeSpan Shift { get; set; }

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Shift;
    }
}
