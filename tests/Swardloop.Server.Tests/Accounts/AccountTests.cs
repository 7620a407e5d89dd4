using Swardloop.Server.Accounts;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Accounts;

public sealed class AccountTests
{
    [Fact]
    public async Task The_code_on_the_console_makes_one_account_and_no_second_one()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = served.Client();
        Assert.True((await MeAsync(client)).NeedsFirstAccount);
        ProblemReply refused = await ProblemAsync(await Served.SignUpAsync(client, "aaaa-bbbb-cccc"), HttpStatusCode.BadRequest);
        Assert.Equal("code", Assert.Single(refused.Problems).Place);
        HttpResponseMessage made = await Served.SignUpAsync(client, served.Mark.FirstAccountCode!.ToUpperInvariant().Replace("-", " ", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.OK, made.StatusCode);
        string cookie = Assert.Single(made.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal((Role.Principal, false), ((await MeAsync(client)).Role, (await MeAsync(client)).NeedsFirstAccount));
        using HttpClient other = served.Client();
        await ProblemAsync(await Served.SignUpAsync(other, served.Mark.FirstAccountCode), HttpStatusCode.Conflict);
    }

    [Fact]
    public async Task All_that_is_wrong_with_a_first_account_is_told_at_once()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = served.Client();
        ProblemReply reply = await ProblemAsync(
            await client.PostAsync("/api/first-account", Served.Json("""{"name":"owner","email":"nobody","password":"aaaaaaaaaaaa"}""")), HttpStatusCode.BadRequest);
        Assert.Equal(["code", "email", "name", "password"], reply.Problems.Select(problem => problem.Place).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Wrong_tries_shut_an_account_and_tell_nobody_whether_it_exists()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient known = await served.AsAsync(Role.Desk);
        using HttpClient client = served.Client();
        string? unknown = (await ProblemAsync(await Served.SignInAsync(client, "nobody@example.org", "wrong wrong wrong"), HttpStatusCode.Unauthorized)).Detail;
        for (int i = 0; i < PasswordTries.MostFromOnePlace; i++)
        {
            Assert.Equal(unknown, (await ProblemAsync(await Served.SignInAsync(client, "Desk@example.org", "wrong wrong wrong"), HttpStatusCode.Unauthorized)).Detail);
        }

        Assert.Equal(unknown, (await ProblemAsync(await Served.SignInAsync(client, "Desk@example.org", Served.Password), HttpStatusCode.Unauthorized)).Detail);
    }

    [Fact]
    public async Task Too_many_tries_in_a_minute_are_put_off()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient client = served.Client();
        List<HttpStatusCode> answers = [];
        for (int i = 0; i < 35; i++)
        {
            answers.Add((await client.PostAsync("/api/sign-in", Served.Json("{}"))).StatusCode);
        }

        Assert.Contains(HttpStatusCode.TooManyRequests, answers);
        Assert.Equal(HttpStatusCode.BadRequest, answers[0]);
    }

    [Fact]
    public async Task A_new_person_changes_the_password_before_anything_else()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        HttpResponseMessage added = await principal.PostAsync("/api/people", Served.Json(
            new NewPerson("Jory Penhale", "jory@example.org", Role.Technician, "given by another"), WorkshopJson.Default.NewPerson));
        Assert.Equal(HttpStatusCode.OK, added.StatusCode);
        using HttpClient jory = served.Client();
        Assert.Equal(HttpStatusCode.OK, (await Served.SignInAsync(jory, "jory@example.org", "given by another")).StatusCode);
        Me me = await MeAsync(jory);
        Assert.Equal((null, true), (me.Role, me.MustChangePassword));
        Assert.Equal(HttpStatusCode.Forbidden, (await jory.GetAsync("/api/bench")).StatusCode);
        HttpResponseMessage wrong = await jory.PutAsync("/api/me/password", Served.Json(new PasswordChange("not it at all", "chosen by myself"), WorkshopJson.Default.PasswordChange));
        Assert.Equal("current", Assert.Single((await ProblemAsync(wrong, HttpStatusCode.BadRequest)).Problems).Place);
        HttpResponseMessage changed = await jory.PutAsync(
            "/api/me/password", Served.Json(new PasswordChange("given by another", "chosen by myself"), WorkshopJson.Default.PasswordChange));
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await jory.GetAsync("/api/bench")).StatusCode);
    }

    [Fact]
    public async Task The_last_owner_of_the_workshop_stays()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        IReadOnlyList<PersonEntry> people = (await principal.GetFromJsonAsync("/api/people", WorkshopJson.Default.IReadOnlyListPersonEntry))!;
        Guid own = Assert.Single(people).Id;
        await ProblemAsync(await principal.PutAsync($"/api/people/{own}/role", Served.Json("""{"role":"desk"}""")), HttpStatusCode.Conflict);
        await ProblemAsync(await principal.PostAsync($"/api/people/{own}/lock", Served.Json("""{"isLocked":true}""")), HttpStatusCode.Conflict);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    [InlineData("Origin", "https://elsewhere.example")]
    [InlineData("Origin", "null")]
    public async Task A_page_of_another_site_changes_nothing_in_ones_name(string header, string value)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        using HttpRequestMessage request = new(HttpMethod.Post, "/api/changes")
        {
            Content = Served.Json(new ChangeBatch([Made.Owner(Guid.CreateVersion7())]), WorkshopJson.Default.ChangeBatch),
        };
        request.Headers.Add(header, value);
        Assert.Equal(HttpStatusCode.Forbidden, (await desk.SendAsync(request)).StatusCode);
        Assert.Empty((await desk.PageAsync()).Records);
    }

    [Fact]
    public async Task Ids_of_others_tell_nothing_and_answers_may_not_be_framed_or_sniffed()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid yard = Guid.CreateVersion7();
        await desk.KeepAsync(Made.Yard(yard));
        using HttpClient nobody = served.Client();
        string there = await (await nobody.GetAsync($"/api/records/{yard}")).Content.ReadAsStringAsync();
        string notThere = await (await nobody.GetAsync($"/api/records/{Guid.CreateVersion7()}")).Content.ReadAsStringAsync();
        Assert.Equal(notThere, there);
        HttpResponseMessage page = await nobody.GetAsync("/");
        string policy = Assert.Single(page.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("script-src 'self' 'wasm-unsafe-eval';", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(page.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("no-store", (await desk.GetAsync("/api/bench")).Headers.CacheControl?.ToString());
    }

    private static async Task<Me> MeAsync(HttpClient client) => (await client.GetFromJsonAsync("/api/me", WorkshopJson.Default.Me))!;

    private static async Task<ProblemReply> ProblemAsync(HttpResponseMessage answer, HttpStatusCode expected)
    {
        Assert.Equal(expected, answer.StatusCode);
        return (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ProblemReply))!;
    }
}
