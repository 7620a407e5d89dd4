using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using SkiaSharp;
using Swardloop.Storage;
using Swardloop.Workshop.Records;

namespace Swardloop.OwnersPage.Tests;

public sealed partial class OwnerPageTests : IAsyncLifetime
{
    private readonly RunningWorkshop _workshop = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask InitializeAsync() => _workshop.InitializeAsync();

    public ValueTask DisposeAsync() => _workshop.DisposeAsync();

    [Fact]
    public async Task Cautions_stand_before_the_instructions_and_the_answer()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        string first = await client.GetStringAsync(path, Token), second = await client.GetStringAsync(path + "?read=loop-resistance", Token);

        Assert.Contains("Unplug the station before you touch the wire", first, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"ohms\"", first, StringComparison.Ordinal);
        Assert.Contains("name=\"ohms\"", second, StringComparison.Ordinal);
        Assert.Contains("+44 1632 960 011", WebUtility.HtmlDecode(second), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_arrives_as_an_observation_by_the_owner()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        HttpResponseMessage answered = await AnswerAsync(client, path, "loop-resistance", Once(), ("ohms", "57,3 Ohm"), ("leadOhms", "0,3"));
        string after = await client.GetStringAsync(answered.Headers.Location, Token);

        Assert.Equal(HttpStatusCode.Redirect, answered.StatusCode);
        RecordState observation = Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
        Assert.Equal("owner", observation["reading"].Shown!.By);
        Assert.Equal(57.3, observation.Value("reading")!.Value.GetProperty("ohms").GetDouble());
        Assert.Equal("owner", observation.Value("reading")!.Value.GetProperty("by").GetString());
        Assert.Contains("Your answer has arrived", after, StringComparison.Ordinal);
        Assert.Contains("57.3", after, StringComparison.Ordinal);
        Assert.DoesNotContain("%", Regex.Replace(after, "<[^>]*>", ""), StringComparison.Ordinal); // words, not probabilities
    }

    [Fact]
    public async Task Answer_sent_twice_is_one_and_sent_again_with_another_number_a_correction()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        using HttpClient client = _workshop.Client();
        string once = Once();

        await AnswerAsync(client, path, "loop-resistance", once, ("ohms", "57"));
        await AnswerAsync(client, path, "loop-resistance", once, ("ohms", "57"));
        Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
        await AnswerAsync(client, path, "loop-resistance", once, ("ohms", "5.7"));

        IReadOnlyList<RecordState> all = await _workshop.RecordsAsync(RecordKind.Observation, @case);
        Assert.Equal(2, all.Count);
        Assert.Equal(all[0].Id, all[1].Reference("corrects"));
        Assert.Equal(5.7, Assert.Single(ObservationOrder.ThatCount(all)).Value("reading")!.Value.GetProperty("ohms").GetDouble());
    }

    [Theory]
    [InlineData("five", "We cannot read this as a number")]
    [InlineData("", "Please fill in this field")]
    [InlineData("1e12", "We cannot read this as a number")]
    [InlineData("9999999999", "That cannot be")]
    [InlineData("-0.4", "there is still voltage on the wire")]
    [InlineData("1", "Only a 1, without a point?")]
    public async Task What_cannot_be_taken_is_said_at_its_field_and_kept_in_it(string typed, string said)
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        HttpResponseMessage answered = await AnswerAsync(client, path, "loop-resistance", Once(), ("ohms", typed));
        string page = await client.GetStringAsync(answered.Headers.Location, Token);

        Assert.Equal(HttpStatusCode.Redirect, answered.StatusCode); // the browser's way back is free
        Assert.Contains(said, page, StringComparison.Ordinal);
        Assert.Contains(typed.Length > 0 ? $"value=\"{typed}\"" : "name=\"ohms\"", page, StringComparison.Ordinal);
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Observation, @case));
    }

    [Fact]
    public async Task What_the_owner_cannot_do_is_not_asked_again()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync());
        using HttpClient client = _workshop.Client();
        HashSet<string> asked = [];

        while (AskedStep().Match(await client.GetStringAsync(path, Token)) is { Success: true } step)
        {
            Assert.True(asked.Add(step.Groups[1].Value), $"{step.Groups[1].Value} was asked twice");
            await client.PostAsync(path + "/cannot", Form(("step", step.Groups[1].Value)), Token);
        }

        Assert.NotEmpty(asked);
        Assert.Contains("nothing more for you to do", await client.GetStringAsync(path, Token), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whatever_opens_nothing_looks_alike()
    {
        Guid @case = await _workshop.CaseAsync();
        (Guid revoked, string revokedPath) = await _workshop.LinkAsync(@case);
        await _workshop.RevokeAsync(revoked);
        (_, string expired) = await _workshop.LinkAsync(@case, validFor: TimeSpan.FromSeconds(-1));
        (_, string good) = await _workshop.LinkAsync(@case);
        string guessed = good[..^1] + (good[^1] == 'A' ? 'E' : 'A');
        using HttpClient client = _workshop.Client();

        List<string> pages = [];
        foreach (string path in (string[])[revokedPath, expired, guessed, "/o/none", "/o/" + new string('A', 43)])
        {
            HttpResponseMessage got = await client.GetAsync(path, Token);
            Assert.Equal(HttpStatusCode.NotFound, got.StatusCode);
            pages.Add(await got.Content.ReadAsStringAsync(Token));
            Assert.Equal(
                HttpStatusCode.NotFound, (await AnswerAsync(client, path, "station-lamp", Once(), ("value", "off"))).StatusCode);
        }

        Assert.Contains("+44 1632 960 011", WebUtility.HtmlDecode(Assert.Single(pages.Distinct())), StringComparison.Ordinal);
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Observation, @case));
    }

    [Fact]
    public async Task A_link_that_anybody_withdrew_opens_nothing_even_in_a_conflict()
    {
        (Guid link, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync());
        await _workshop.RevokeAsync(link);
        await _workshop.SetAsync(RecordKind.OwnerLink, link, new { revoked = false }); // by somebody who had not seen it
        using HttpClient client = _workshop.Client();
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(path, Token)).StatusCode);
    }

    [Fact]
    public async Task Link_of_a_closed_case_takes_no_photo_and_no_answer()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case);
        await _workshop.SetAsync(RecordKind.Case, @case, new { state = "closed" }, replace: "state");
        using HttpClient client = _workshop.Client();
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(path, Token)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await PhotoAsync(client, path, JpegWithPlace(), Once())).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await AnswerAsync(client, path, "station-lamp", Once(), ("value", "off"))).StatusCode);
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Photo, @case));
    }

    [Theory]
    [InlineData("/o/ä/x")]
    [InlineData("/o/%C3%A4/x")]
    [InlineData("/o/%0d%0a/x")]
    public async Task Address_of_any_letters_opens_nothing_and_breaks_nothing(string path)
    {
        using HttpClient client = _workshop.Client();
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(path, Token)).StatusCode);
    }

    [Fact]
    public async Task A_thousand_guesses_are_throttled()
    {
        using HttpClient client = _workshop.Client();
        int heard = 0;
        for (int i = 0; i < 1000; i++)
        {
            using HttpResponseMessage got = await client.GetAsync("/o/" + Convert.ToHexString(Guid.NewGuid().ToByteArray()), Token);
            heard += got.StatusCode == HttpStatusCode.TooManyRequests ? 0 : 1;
        }

        // Two windows of a minute, should the guessing fall across their border.
        Assert.InRange(heard, 1, 120);
    }

    [Fact]
    public async Task Address_is_in_no_log_and_in_no_referrer_even_when_the_server_fails()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "loop-resistance");
        using HttpClient client = _workshop.Client();
        HttpResponseMessage page = await client.GetAsync(path, Token);
        await AnswerAsync(client, path, "loop-resistance", Once(), ("ohms", "57"));
        await using (WorkshopDatabase database = await _workshop.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>()
            .CreateDbContextAsync(Token))
        {
            await database.Database.ExecuteSqlRawAsync("ALTER TABLE \"Records\" RENAME TO \"Gone\"", Token);
        }

        HttpResponseMessage failed = await client.GetAsync(path, Token);

        Assert.True((int)failed.StatusCode >= 500);
        Assert.NotEmpty(_workshop.Log.All);
        string secret = path["/o/".Length..];
        Assert.DoesNotContain(_workshop.Log.All, line => line.Contains(secret, StringComparison.Ordinal));
        Assert.Equal("no-referrer", page.Headers.GetValues("Referrer-Policy").Last());
        Assert.Equal("no-store", page.Headers.CacheControl!.ToString());
    }

    [Fact]
    public async Task Page_is_light_and_runs_nothing()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "loop-resistance mower-reach");
        using HttpClient client = _workshop.Client();

        string page = await client.GetStringAsync(path + "?read=loop-resistance", Token), style = await client.GetStringAsync("/owner.css", Token);

        Assert.InRange(Encoding.UTF8.GetByteCount(page) + Encoding.UTF8.GetByteCount(style), 1, 100_000);
        Assert.DoesNotContain("<script", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("style=", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch("(?:src|href)=\"(?:https?:)?//", page);
    }

    [Fact]
    public async Task Photo_is_drawn_anew_and_loses_its_place_data()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case);
        using HttpClient client = _workshop.Client();
        byte[] photo = [.. JpegWithPlace(), .. "<script>alert(1)</script>"u8];

        string once = Once();
        HttpResponseMessage first = await PhotoAsync(client, path, photo, once), again = await PhotoAsync(client, path, photo, once);

        Assert.Equal(HttpStatusCode.Redirect, first.StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, again.StatusCode);
        RecordState record = Assert.Single(await _workshop.RecordsAsync(RecordKind.Photo, @case));
        await using WorkshopDatabase database = await _workshop.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>()
            .CreateDbContextAsync(Token);
        StoredPhoto stored = await database.Photos.SingleAsync(one => one.Photo == record.Id, Token);
        Assert.Equal("image/jpeg", stored.MediaType);
        Assert.Contains("Exif", Encoding.Latin1.GetString(photo), StringComparison.Ordinal);
        Assert.DoesNotContain("Exif", Encoding.Latin1.GetString(stored.Bytes), StringComparison.Ordinal);
        Assert.DoesNotContain("script", Encoding.Latin1.GetString(stored.Bytes), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync($"/api/photos/{record.Id}", Token)).StatusCode);
    }

    [Fact]
    public async Task Page_opened_again_at_a_forms_address_is_the_page()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync());
        using HttpClient client = _workshop.Client();

        HttpResponseMessage got = await client.GetAsync(path + "/answer?language=de", Token);

        Assert.Equal(HttpStatusCode.Redirect, got.StatusCode);
        Assert.Equal(path + "?language=de", got.Headers.Location!.ToString());
    }

    [Fact]
    public async Task Another_cases_photo_is_neither_shown_nor_taken_over_nor_anothers_answer_changed()
    {
        Guid theirs = await _workshop.CaseAsync(), mine = await _workshop.CaseAsync();
        (_, string theirPath) = await _workshop.LinkAsync(theirs);
        (_, string myPath) = await _workshop.LinkAsync(mine);
        using HttpClient client = _workshop.Client();
        string photo = Once(), answer = Once();
        await PhotoAsync(client, theirPath, JpegWithPlace(), photo);
        await AnswerAsync(client, theirPath, "station-lamp", answer, ("value", "off"));

        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync($"/api/photos/{photo}", Token)).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await client.GetAsync($"{myPath}/photo/{photo}", Token)).StatusCode);
        Assert.Contains("photo=refused", (await PhotoAsync(client, myPath, JpegWithPlace(), photo)).Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.Contains("refused=station-lamp", (await AnswerAsync(client, myPath, "station-lamp", answer, ("value", "normal"))).Headers.Location!.ToString(), StringComparison.Ordinal);

        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Photo, mine));
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Observation, mine));
        Assert.Equal("off", Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, theirs)).Value("reading")!.Value.GetProperty("value").GetString());
    }

    [Fact]
    public async Task Photo_whose_bytes_were_kept_when_the_power_went_gets_its_record_when_it_is_sent_again()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case);
        using HttpClient client = _workshop.Client();
        string once = Once();
        await using (WorkshopDatabase database = await _workshop.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync(Token))
        {
            database.Photos.Add(new() { Photo = Guid.Parse(once), MediaType = "image/jpeg", Bytes = [1], Small = [1] });
            await database.SaveChangesAsync(Token);
        }

        await PhotoAsync(client, path, JpegWithPlace(), once);

        Assert.Equal(once, Assert.Single(await _workshop.RecordsAsync(RecordKind.Photo, @case)).Id.ToString());
    }

    [Fact]
    public async Task One_sending_brings_the_answer_and_the_photo_and_both_are_listed()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "station-lamp loop-resistance");
        using HttpClient client = _workshop.Client();

        HttpResponseMessage sent = await client.PostAsync(path + "/answer", WithPhoto(("step", "station-lamp"), ("value", "off"), ("note", "behind the shed")), Token);
        string page = await client.GetStringAsync(sent.Headers.Location, Token);

        Assert.Contains("Your answer and your photo have arrived", page, StringComparison.Ordinal);
        Assert.Contains("<li>A photo ", page, StringComparison.Ordinal);
        RecordState observation = Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
        Assert.Equal("behind the shed", observation.Value("reading")!.Value.GetProperty("note").GetString());
        Assert.Single(await _workshop.RecordsAsync(RecordKind.Photo, @case));
    }

    [Fact]
    public async Task Photo_with_an_answer_that_cannot_be_taken_throws_nothing_away()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        HttpResponseMessage sent = await client.PostAsync(path + "/answer", WithPhoto(("step", "loop-resistance"), ("ohms", "five"), ("leadOhms", "0.3")), Token);
        string page = await client.GetStringAsync(sent.Headers.Location, Token);

        Assert.Contains("value=\"five\"", page, StringComparison.Ordinal);
        Assert.Contains("value=\"0.3\"", page, StringComparison.Ordinal);
        Assert.Contains("Your photo has arrived", page, StringComparison.Ordinal);
        Assert.Single(await _workshop.RecordsAsync(RecordKind.Photo, @case));
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Observation, @case));
    }

    [Fact]
    public async Task Two_devices_on_one_link_are_told()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "station-lamp");
        using HttpClient client = _workshop.Client();

        await AnswerAsync(client, path, "station-lamp", Once(), ("value", "off"), ("last", ""));
        HttpResponseMessage second = await AnswerAsync(client, path, "station-lamp", Once(), ("value", "normal"), ("last", ""));

        Assert.Contains("answered from another device", await client.GetStringAsync(second.Headers.Location, Token), StringComparison.Ordinal);
        Assert.Equal(2, (await _workshop.RecordsAsync(RecordKind.Observation, @case)).Count);
    }

    [Fact]
    public async Task Walk_of_several_stretches_is_one_sending_and_an_observation_for_each()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "look");
        using HttpClient client = _workshop.Client();
        string once = Once();
        (string, string)[] walk = [("fromM", "1"), ("toM", "3"), ("fromM-2", "7.5"), ("toM-2", "9"), ("value", "nothing"), ("note", "by the shed")];

        // All of it or nothing.
        HttpResponseMessage refused = await AnswerAsync(client, path, "look", once, walk);
        Assert.Contains("refused=look", refused.Headers.Location!.ToString(), StringComparison.Ordinal);
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Observation, @case));

        await AnswerAsync(client, path, "look", once, [.. walk, ("value-2", "damage")]);
        await AnswerAsync(client, path, "look", once, [.. walk, ("value-2", "damage")]); // a second touch of the button

        System.Text.Json.JsonElement[] readings = [.. (await _workshop.RecordsAsync(RecordKind.Observation, @case)).Select(record => record.Value("reading")!.Value).OrderBy(reading => reading.GetProperty("fromM").GetDouble())];
        Assert.Equal([1, 7.5], readings.Select(reading => reading.GetProperty("fromM").GetDouble()));
        Assert.Equal([3, 9], readings.Select(reading => reading.GetProperty("toM").GetDouble()));
        Assert.Equal(["nothing", "damage"], readings.Select(reading => reading.GetProperty("value").GetString()));
        Assert.Equal("by the shed", readings[0].GetProperty("note").GetString());
        Assert.False(readings[1].TryGetProperty("note", out _));
        Assert.DoesNotContain("name=\"step\" value=\"look\"", await client.GetStringAsync(path, Token), StringComparison.Ordinal); // asked once
    }

    [Fact]
    public async Task Who_has_not_the_tool_is_asked_nothing_that_needs_it_and_the_workshop_hears_why()
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case, ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        await client.PostAsync(path + "/cannot", Form(("step", "loop-resistance"), ("why", "no-tool")), Token);

        RecordState observation = Assert.Single(await _workshop.RecordsAsync(RecordKind.Observation, @case));
        Assert.Equal("not-done", observation.Value("reading")!.Value.GetProperty("value").GetString());
        Assert.Equal("I do not have the tool", observation.Value("reading")!.Value.GetProperty("note").GetString());
        Assert.DoesNotContain("You need a multimeter", await client.GetStringAsync(path, Token), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "With your answers we come with the right parts", "At most 6 questions. This one takes about ", "Measure the wire in the lawn", "Anything else, for example where")]
    [InlineData("de", "Mit Ihren Antworten kommen wir mit den richtigen Teilen", "Höchstens 6 Fragen. Diese dauert etwa ", "Den Draht im Rasen messen", "Sonst noch etwas, zum Beispiel wo")]
    public async Task First_page_says_why_how_many_and_how_long_in_an_owners_words(string language, params string[] said)
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "loop-resistance", language: language);
        using HttpClient client = _workshop.Client();

        string first = Text(await client.GetStringAsync(path, Token)), form = Text(await client.GetStringAsync(path + "?read=loop-resistance", Token));

        Assert.All(said[..3], words => Assert.Contains(words, first, StringComparison.Ordinal));
        Assert.All(said[2..], words => Assert.Contains(words, form, StringComparison.Ordinal));
        Assert.DoesNotContain(said[0], form, StringComparison.Ordinal); // said once
    }

    [Fact]
    public async Task Each_drawing_of_measuring_the_wire_stands_beside_its_line()
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: "loop-resistance");
        using HttpClient client = _workshop.Client();

        string form = await client.GetStringAsync(path + "?read=loop-resistance", Token);

        Match how = Regex.Match(form, "<ol>.*?</ol>", RegexOptions.Singleline);
        Assert.Equal(4, Regex.Count(how.Value, "<figure>"));
        Assert.Equal(4, Regex.Matches(how.Value, "<li>.*?</li>", RegexOptions.Singleline).Count(line => line.Value.Contains("<figure>", StringComparison.Ordinal)));
        Assert.Equal(4, Regex.Count(form, "<figure>"));
    }

    [Theory]
    [InlineData("mower-start", "The mower on the grass, you behind it")]
    [InlineData("mower-check", "The mower on the grass, you behind it")]
    [InlineData("mower-reach", "From the wire towards the middle")]
    public async Task Starting_the_mower_and_its_reach_are_drawn(string step, string words)
    {
        (_, string path) = await _workshop.LinkAsync(await _workshop.CaseAsync(), ask: step);
        using HttpClient client = _workshop.Client();

        string form = await client.GetStringAsync($"{path}?read={step}", Token);

        Assert.Contains("class=\"drawing\"", form, StringComparison.Ordinal);
        Assert.Contains(words, form, StringComparison.Ordinal);
        // A cross in the middle only where the mower is to start there, never with "beside the wire".
        bool isInTheMiddle = step == "mower-check" || form.Contains("name=\"place\" value=\"mid-lawn\"", StringComparison.Ordinal);
        Assert.Equal(isInTheMiddle, form.Contains("class=\"cross\"", StringComparison.Ordinal));
        Assert.False(isInTheMiddle && form.Contains("beside the wire", StringComparison.OrdinalIgnoreCase), "a cross in the middle, and words beside the wire");
    }

    [Theory]
    [InlineData("en", "d MMM yyyy", "You hear from us by ")]
    [InlineData("de", "dd.MM.yyyy", "Sie hören bis ")]
    public async Task End_says_when_somebody_calls_and_dates_stand_as_the_reader_writes_them(string language, string pattern, string says)
    {
        Guid @case = await _workshop.CaseAsync();
        DateTime promised = DateTime.Now.AddDays(3);
        await _workshop.SetAsync(RecordKind.Case, @case, new { promisedOn = promised.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture) });
        (_, string path) = await _workshop.LinkAsync(@case, language: language);
        using HttpClient client = _workshop.Client();
        await AnswerAsync(client, path, "station-lamp", Once(), ("value", "off"));
        while (AskedStep().Match(await client.GetStringAsync(path, Token)) is { Success: true } step)
        {
            await client.PostAsync(path + "/cannot", Form(("step", step.Groups[1].Value)), Token);
        }

        string end = Text(await client.GetStringAsync(path, Token));

        string Day(DateTime day) => day.ToString(pattern, System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains(says + Day(promised), end, StringComparison.Ordinal);
        DateTime[] sent = [DateTime.Now, DateTime.Now.AddMinutes(-30)]; // the test may run over midnight
        Assert.Contains(sent, day => Regex.IsMatch(end, Regex.Escape(Day(day)) + @", \d\d:\d\d"));
        Assert.DoesNotMatch(@"\d{4}-\d\d-\d\d|\d+/\d+/\d{4}", end);
    }

    [Theory]
    [InlineData("<html><script>1</script></html>")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'/>")]
    [InlineData("GIF89a")]
    [InlineData("")]
    public async Task What_is_no_photo_is_refused_in_words(string content)
    {
        Guid @case = await _workshop.CaseAsync();
        (_, string path) = await _workshop.LinkAsync(@case);
        using HttpClient client = _workshop.Client();

        HttpResponseMessage sent = await PhotoAsync(client, path, Encoding.UTF8.GetBytes(content), Once());

        Assert.Equal(HttpStatusCode.Redirect, sent.StatusCode);
        Assert.Contains("not a photo we can take", await client.GetStringAsync(sent.Headers.Location, Token), StringComparison.Ordinal);
        Assert.Empty(await _workshop.RecordsAsync(RecordKind.Photo, @case));
    }

    private static string Text(string html) => WebUtility.HtmlDecode(Regex.Replace(html, "<[^>]*>", ""));

    private static string Once() => Guid.CreateVersion7().ToString();

    private static Task<HttpResponseMessage> AnswerAsync(HttpClient client, string path, string step, string once, params (string, string)[] fields) =>
        client.PostAsync(path + "/answer?language=en", Form([("step", step), ("once", once), .. fields]), Token);

    private static async Task<HttpResponseMessage> PhotoAsync(HttpClient client, string path, byte[] bytes, string once)
    {
        using MultipartFormDataContent form = new() { { new StringContent(once), "once" }, { new ByteArrayContent(bytes), "photo", "photo.jpg" } };
        return await client.PostAsync(path + "/photo", form, Token);
    }

    private static MultipartFormDataContent WithPhoto(params (string Name, string Value)[] fields)
    {
        MultipartFormDataContent form = new() { { new StringContent(Once()), "once" }, { new StringContent(Once()), "photo-once" }, { new ByteArrayContent(JpegWithPlace()), "photo", "photo.jpg" } };
        foreach ((string name, string value) in fields)
        {
            form.Add(new StringContent(value), name);
        }

        return form;
    }

    private static FormUrlEncodedContent Form(params (string Name, string Value)[] fields) =>
        new(fields.Select(field => KeyValuePair.Create(field.Name, field.Value)));

    /// <summary>A JPEG with an Exif segment (marker APP1) right behind its start, as cameras write it.</summary>
    private static byte[] JpegWithPlace()
    {
        using SKBitmap bitmap = new(64, 48);
        bitmap.Erase(SKColors.DarkOliveGreen);
        byte[] jpeg = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90).ToArray();
        byte[] body = [.. "Exif\0\0"u8, .. "MM\0*\0\0\0\x08\0\0\0\0\0\0"u8];
        int length = body.Length + 2;
        return [.. jpeg[..2], 0xff, 0xe1, (byte)(length >> 8), (byte)length, .. body, .. jpeg[2..]];
    }

    [GeneratedRegex("name=\"step\" value=\"([a-z-]+)\"")]
    private static partial Regex AskedStep();
}
