using System.Net.Http.Headers;
using System.Text.Json.Nodes;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Changes;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Hardening;

/// <summary>Holes too small for a file of their own.</summary>
public sealed class SmallHoleTests
{
    [Fact]
    public async Task The_link_of_a_closed_case_takes_no_photo_and_no_answer()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk), owner = served.Client();
        (Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        Change opened = Made.Case(@case, yard);
        await desk.KeepAsync(Made.Yard(yard), opened);
        string link = await desk.LinkAsync(yard, @case);
        await desk.KeepAsync(Made.Change(RecordKind.Case, @case, new() { ["state"] = "closed" }, ("state", [opened.Id])));
        foreach (string to in (string[])["photo", "answer", "cannot"])
        {
            using MultipartFormDataContent form = new() { { new StringContent(Guid.CreateVersion7().ToString()), "once" }, { new StringContent("station-lamp"), "step" } };
            ByteArrayContent photo = new(Made.Picture());
            photo.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
            form.Add(photo, "photo", "p.jpg");
            Assert.Equal(HttpStatusCode.NotFound, (await owner.PostAsync($"{link}/{to}", form)).StatusCode);
        }

        Assert.DoesNotContain((await desk.PageAsync()).Records, record => record.Kind is RecordKind.Photo or RecordKind.Observation);
    }

    [Theory]
    [InlineData("/o/%C3%A4/x")]
    [InlineData("/o/%C3%A4")]
    [InlineData("/o/%C3%A4/photo")]
    [InlineData("/o/%00/x")]
    [InlineData("/o/%FF%FE/x")]
    [InlineData("/o/..%2f..%2fapi/me")]
    public async Task Letters_of_other_alphabets_in_an_owners_address_open_nothing(string path)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient owner = served.Client();
        Assert.InRange((int)(await owner.GetAsync(path)).StatusCode, 400, 404);
        using FormUrlEncodedContent form = new([new("once", Guid.CreateVersion7().ToString())]);
        Assert.InRange((int)(await owner.PostAsync(path, form)).StatusCode, 400, 405);
    }

    [Theory]
    [InlineData("""{"technician":"yes"}""", "set.can.technician")]
    [InlineData("""{"instruments":["crystal ball"]}""", "set.can.instruments[0]")]
    [InlineData("""{"without":["dance"]}""", "set.can.without[0]")]
    public async Task What_a_case_can_is_checked(string can, string place)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7());
        await desk.KeepAsync(Made.Yard(yard), Made.Case(@case, yard));
        ChangeResult refused = Assert.Single(await desk.SendAsync(Made.Change(RecordKind.Case, @case, new() { ["can"] = JsonNode.Parse(can) })));
        Assert.Equal(ChangeStatus.Refused, refused.Status);
        Assert.EndsWith(place, refused.Problems[0].Place, StringComparison.Ordinal);
        await desk.KeepAsync(Made.Change(RecordKind.Case, @case, new() { ["can"] = JsonNode.Parse("""{"technician":true,"owner":false,"instruments":["multimeter"]}""") }));
    }

    [Fact]
    public async Task A_bench_trial_is_checked_whole()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        JsonObject bench = new()
        {
            ["format"] = "swardloop-bench/1",
            ["name"] = "Trial",
            ["yard"] = Made.YardFile.DeepClone(),
            ["trials"] = new JsonArray(new JsonObject { ["addedOhms"] = 100, ["seen"] = "turns-back", ["distanceM"] = 2.5 }),
        };
        async Task<ChangeResult> SendAsync(JsonObject what) => Assert.Single(await principal.SendAsync(
            Made.Change(RecordKind.Profile, Guid.CreateVersion7(), new() { ["name"] = "Station", ["bench"] = what.DeepClone() })));
        Assert.Equal(ChangeStatus.Kept, (await SendAsync(bench)).Status);
        bench["trials"]![0]!["addedOhms"] = "many";
        Assert.Equal("changes[0].set.bench.trials[0].addedOhms", Assert.Single((await SendAsync(bench)).Problems).Place);
        bench["trials"]![0]!["addedOhms"] = 100;
        bench.Remove("yard");
        Assert.Equal(ChangeStatus.Refused, (await SendAsync(bench)).Status);
    }

    [Theory]
    [InlineData("   ")]
    [InlineData("\u200b\u200d\ufeff")]
    [InlineData("\u00a0\u2003\t")]
    [InlineData("\u3164\u2800")]
    [InlineData("\u202e\u0301")]
    public async Task Names_of_which_nothing_can_be_seen_are_refused(string name)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Assert.Equal(ChangeStatus.Refused, Assert.Single(await principal.SendAsync(Made.Owner(Guid.CreateVersion7(), name))).Status);
        HttpResponseMessage person = await principal.PostAsync("/api/people", Served.Json(new NewPerson(name, "new@example.org", Role.Desk, Served.Password), WorkshopJson.Default.NewPerson));
        Assert.Equal(HttpStatusCode.BadRequest, person.StatusCode);
        await principal.KeepAsync(Made.Owner(Guid.CreateVersion7(), "ñ"), Made.Owner(Guid.CreateVersion7(), "山田"));
    }

    [Fact]
    public async Task Health_is_answered_by_the_database_and_not_by_the_app()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        await using Served served = await Served.StartAsync(place);
        using HttpClient watcher = served.Client();
        HttpResponseMessage well = await watcher.GetAsync("/health");
        Assert.Equal((HttpStatusCode.OK, "healthy\n", "text/plain"), (well.StatusCode, await well.Content.ReadAsStringAsync(), well.Content.Headers.ContentType?.MediaType));
        File.Move(Path.Combine(place.Folder, "workshop.db"), Path.Combine(place.Folder, "away.db"));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await watcher.GetAsync("/health")).StatusCode);
        File.Move(Path.Combine(place.Folder, "away.db"), Path.Combine(place.Folder, "workshop.db"));
    }

    [Fact]
    public async Task The_demo_signs_nobody_out_of_the_own_workshop_and_its_changes_do_not_get_there()
    {
        await using Served own = await Served.StartAsync(TestPlaces.Sqlite()), demo = await Served.StartAsync(TestPlaces.Sqlite(isDemo: true));
        using SocketsHttpHandler jar = new() { CookieContainer = new() };
        using HttpClient browser = new(jar);
        using (await own.AsAsync(Role.Desk))
        {
            // The account is there.
        }

        // One host, two ports: browsers tell no ports apart.
        await Served.SignInAsync(browser, "Desk@example.org", Served.Password, own.Address);
        Me me = (await browser.GetFromJsonAsync(new Uri(own.Address, "/api/me"), WorkshopJson.Default.Me))!;
        Me shown = (await browser.GetFromJsonAsync(new Uri(demo.Address, "/api/me"), WorkshopJson.Default.Me))!;
        Assert.True(shown.IsDemo && shown.Name is not null);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync(new Uri(own.Address, "/api/bench"))).StatusCode);
        Assert.Equal(me.Email, (await browser.GetFromJsonAsync(new Uri(own.Address, "/api/me"), WorkshopJson.Default.Me))!.Email);

        ChangeBatch unsent = new([Made.Owner(Guid.CreateVersion7())]) { Workshop = shown.Workshop };
        HttpResponseMessage refused = await browser.PostAsync(new Uri(own.Address, "/api/changes"), Served.Json(unsent, WorkshopJson.Default.ChangeBatch));
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Contains("another workshop", await refused.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await browser.PostAsync(new Uri(own.Address, "/api/changes"), Served.Json(unsent with { Workshop = me.Workshop }, WorkshopJson.Default.ChangeBatch))).StatusCode);
    }

    [Fact]
    public void An_export_or_import_over_the_file_that_is_read_is_refused_and_the_file_stays()
    {
        string folder = TestPlaces.Sqlite().Folder, file = Path.Combine(folder, "yard.json"), link = Path.Combine(folder, "link.json");
        File.Copy(Repository.At("examples/sorrel-corner.yard.json"), file);
        File.CreateSymbolicLink(link, file);
        byte[] before = File.ReadAllBytes(file);
        foreach (string[] call in (string[][])[["export", file, "--local", "--geojson", file], ["export", file, "--local", "--geojson", link], ["import", file, "--out", Path.Combine(folder, ".", "yard.json")]])
        {
            (int exitCode, _, string error) = CommandRun.Run(call);
            Assert.Equal(2, exitCode);
            Assert.Single(error.TrimEnd('\n').Split('\n'));
        }

        Assert.Equal(before, File.ReadAllBytes(file));
    }

    [Fact]
    public async Task The_public_address_must_be_one_of_a_web_server()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient principal = await served.AsAsync(Role.Principal);
        Change Set(string address) => Made.Change(RecordKind.Workshop, Ids.Workshop, new() { ["publicAddress"] = address });
        foreach (string wrong in (string[])["lawns.example.org", "javascript:alert(1)", "https://user@lawns.example.org", "https://lawns.example.org/?a=b", "ftp://lawns.example.org"])
        {
            Assert.Equal(ChangeStatus.Refused, Assert.Single(await principal.SendAsync(Set(wrong))).Status);
        }

        await principal.KeepAsync(Set("https://lawns.example.org"));
    }
}
