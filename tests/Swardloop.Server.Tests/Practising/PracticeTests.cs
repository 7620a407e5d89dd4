using System.Text.Json.Nodes;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Swardloop.Model.Cases;
using Swardloop.Practice;
using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Hardening;
using Swardloop.Server.Tests.Serving;
using Swardloop.Storage;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;

namespace Swardloop.Server.Tests.Practising;

/// <summary>Practice yards over HTTP: what crosses the wire before the end, whose they are, and that a step is done once.</summary>
public sealed class PracticeTests
{
    // Every name that an answer holds before the end. Another one would be a place where the truth could be.
    private static readonly string[] Names =
    [
        "run", "case", "turns", "end", "id", "level", "startedAt", "endedAt", "steps", "money", "minutes", "cured", "score", "cardMoney", "knownMoney", "engineMoney",
        "step", "seen", "travel", "why", "by", "atM", "fromM", "toM", "from", "place", "wire", "nearMetal", "loaded", "spacingM", "guide",
        "format", "yard", "complaint", "rates", "onSite", "can", "observations", "labourPerHour", "travelPerVisit", "ownerPatiencePerHour", "currency",
        "technician", "owner", "instruments", "ownerInstruments", "without",
        "name", "lawn", "loop", "path", "conductor", "material", "areaMm2", "lengthToleranceM", "joints", "style", "capacitancePFPerM", "guides", "joinsAtM",
        "station", "sourceOhms", "frequencyHz", "lampAlarmOhms", "hasContinuityLamp", "mower", "reachConstantOhmM", "sensorHeightM", "metal", "kind", "earthOhms",
        "neighbours", "sameCoding", "ohms", "riskSpots", "weight",
        "test", "repair", "value", "conditions", "volts", "nominalVolts", "distanceM", "bound", "leadOhms", "meter", "percent", "digits", "resolutionOhms", "found",
    ];

    [Theory]
    [InlineData(PracticeLevel.Easy)]
    [InlineData(PracticeLevel.Usual)]
    [InlineData(PracticeLevel.Hard)]
    public async Task Nothing_of_the_truth_crosses_the_wire_before_the_end(PracticeLevel level)
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient reader = await served.AsAsync(Role.Reader);
        for (int yard = 0; yard < 4; yard++)
        {
            List<string> answers = [];
            PracticeState state = await BeginAsync(reader, level, answers);
            long seed = (await RowAsync(served, state.Run.Id)).Seed;
            foreach (string step in (string[])["""{"step":"station-lamp","by":"technician"}""", """{"step":"loop-resistance","by":"technician"}""", """{"step":"remake-terminals","by":"technician"}"""])
            {
                state = await DoAsync(reader, state, step, answers);
                if (state.Run.EndedAt is not null)
                {
                    break;
                }
            }

            answers.Add(await reader.GetStringAsync($"/api/practice/{state.Run.Id}"));
            answers.Add(await reader.GetStringAsync("/api/practice"));
            string world = PracticeEnding.Of(PracticeOf(level, seed), EngineWay.Start(level, seed), false).World;
            foreach (string answer in answers)
            {
                JsonNode body = JsonNode.Parse(answer)!;
                Assert.Empty(NamesIn(body is JsonArray list ? list.First(one => (string?)one!["id"] == state.Run.Id.ToString())! : body).Except(Names));
                Assert.DoesNotContain(seed.ToString(System.Globalization.CultureInfo.InvariantCulture), answer, StringComparison.Ordinal);
                Assert.DoesNotContain(world, ValuesIn(body)); // some worlds are called as members are: guides, money
                if (body is JsonObject)
                {
                    Assert.Null(body["end"]);
                    Assert.All((string[])["endedAt", "cured", "score", "cardMoney", "knownMoney", "engineMoney"], name => Assert.Null(body["run"]![name]));
                    Assert.Equal("Practice yard", (string?)body["case"]!["yard"]!["name"]);
                }
            }

            // The advice's way would tell too: only afterwards.
            Assert.Equal(HttpStatusCode.Conflict, (await reader.PostAsync($"/api/practice/{state.Run.Id}/engine", null)).StatusCode);
            PracticeState ended = await ReadAsync(await reader.PostAsync($"/api/practice/{state.Run.Id}/end", null));
            Assert.Equal((seed, world), (ended.End!.Seed, ended.End.World));
            Assert.NotEmpty(ended.End.Truth);
        }
    }

    [Fact]
    public async Task The_advices_steps_followed_over_http_end_it_and_cost_what_the_advice_costs()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient learner = await served.AsAsync(Role.Technician);
        PracticeState state = await BeginAsync(learner, PracticeLevel.Easy);
        EngineWay way = EngineWay.Start(PracticeLevel.Easy, (await RowAsync(served, state.Run.Id)).Seed);
        while (!way.IsWhole)
        {
            way = way.Next(TestContext.Current.CancellationToken);
        }

        foreach (EngineStep step in way.Steps)
        {
            state = await DoAsync(learner, state, step.Step.ToJsonString());
        }

        Assert.True(state.Run.Cured);
        Assert.Equal(way.Tell(false).Score, state.Run.Score);
        PracticeWay played;
        int calls = 0;
        do
        {
            using HttpResponseMessage answer = await learner.PostAsync($"/api/practice/{state.Run.Id}/engine?language=de", null);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            played = (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.PracticeWay))!;
            Assert.True(++calls < 40);
        }
        while (!played.IsWhole);
        Assert.Equal(state.Run.Score, played.Score);
        PracticeEntry listed = Assert.Single((await learner.GetFromJsonAsync("/api/practice", WorkshopJson.Default.IReadOnlyListPracticeEntry))!);
        Assert.Equal((played.Score, state.Run.Score), (listed.EngineMoney, listed.Score));
        Assert.Equal(HttpStatusCode.Conflict, (await PostStepAsync(learner, state, """{"step":"outlet-check","by":"technician"}""")).StatusCode);
    }

    [Fact]
    public async Task A_step_whose_answer_was_lost_is_done_once_and_another_pages_step_is_not_overwritten()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient learner = await served.AsAsync(Role.Desk);
        PracticeState begun = await BeginAsync(learner, PracticeLevel.Easy);
        string lamp = """{"step":"station-lamp","by":"technician"}""";
        PracticeState once = await DoAsync(learner, begun, lamp), again = await DoAsync(learner, begun, lamp);
        Assert.Equal((1, once.Run.Money), (again.Run.Steps, again.Run.Money));
        Assert.Equal(HttpStatusCode.Conflict, (await PostStepAsync(learner, begun, """{"step":"outlet-check","by":"technician"}""")).StatusCode);
        using HttpResponseMessage wrong = await PostStepAsync(learner, once, """{"step":"split-resistance","by":"owner","atM":1}""");
        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
        Assert.Contains("not for owners", await wrong.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nobody_sees_or_goes_on_with_anothers_practice()
    {
        await using Served served = await Served.StartAsync(TestPlaces.Sqlite());
        using HttpClient learner = await served.AsAsync(Role.Desk), principal = await served.AsAsync(Role.Principal);
        PracticeState begun = await BeginAsync(learner, PracticeLevel.Easy);
        Assert.Equal(HttpStatusCode.NotFound, (await principal.GetAsync($"/api/practice/{begun.Run.Id}")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await principal.PostAsync($"/api/practice/{begun.Run.Id}/end", null)).StatusCode);
        Assert.Empty((await principal.GetFromJsonAsync("/api/practice", WorkshopJson.Default.IReadOnlyListPracticeEntry))!);
    }

    [Fact]
    public async Task A_backup_keeps_practice_yards()
    {
        WorkshopPlace place = TestPlaces.Sqlite();
        PracticeState once;
        await using (Served served = await Served.StartAsync(place))
        {
            using HttpClient principal = await served.AsAsync(Role.Principal);
            once = await DoAsync(principal, await BeginAsync(principal, PracticeLevel.Usual), """{"step":"station-lamp","by":"technician"}""");
            await using FileStream file = File.Create(Path.Combine(place.Folder, "backup.zip"));
            await (await principal.GetStreamAsync("/api/backup")).CopyToAsync(file, TestContext.Current.CancellationToken);
        }

        string into = Path.Combine(place.Folder, "again");
        Assert.Equal((0, ""), (CommandRun.Run("restore", Path.Combine(place.Folder, "backup.zip"), "--data", into) is var run ? (run.ExitCode, run.Error) : default));
        await using Served restored = await Served.StartAsync(new WorkshopPlace(into, null, false));
        PracticeRun kept = await RowAsync(restored, once.Run.Id);
        Assert.Equal((1, once.Run.Money, once.Run.Level), (kept.StepCount, kept.Money, PracticeLevel.Usual));
    }

    private static PracticeVisit PracticeOf(PracticeLevel level, long seed) => new(level, seed);

    private static async Task<PracticeRun> RowAsync(Served served, Guid id)
    {
        await using WorkshopDatabase database = await served.Services.GetRequiredService<IDbContextFactory<WorkshopDatabase>>().CreateDbContextAsync();
        return await database.Practice.AsNoTracking().SingleAsync(run => run.Id == id);
    }

    private static async Task<PracticeState> BeginAsync(HttpClient client, PracticeLevel level, List<string>? answers = null) =>
        await ReadAsync(await client.PostAsync("/api/practice", Served.Json($$"""{"level":"{{WireName.Of(level)}}"}""")), answers);

    private static async Task<PracticeState> DoAsync(HttpClient client, PracticeState state, string step, List<string>? answers = null) =>
        await ReadAsync(await PostStepAsync(client, state, step), answers);

    private static Task<HttpResponseMessage> PostStepAsync(HttpClient client, PracticeState state, string step) =>
        client.PostAsync($"/api/practice/{state.Run.Id}/steps", Served.Json($$"""{"after":{{state.Turns.Count}},"step":{{step}}}"""));

    private static async Task<PracticeState> ReadAsync(HttpResponseMessage answer, List<string>? answers = null)
    {
        string body = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{answer.StatusCode} {body}");
        answers?.Add(body);
        return System.Text.Json.JsonSerializer.Deserialize(body, WorkshopJson.Default.PracticeState)!;
    }

    private static IEnumerable<string> ValuesIn(JsonNode? node) => node switch
    {
        JsonObject members => members.SelectMany(member => ValuesIn(member.Value)),
        JsonArray items => items.SelectMany(ValuesIn),
        JsonValue value when value.TryGetValue(out string? text) => [text],
        _ => [],
    };

    private static IEnumerable<string> NamesIn(JsonNode? node) => node switch
    {
        JsonObject members => members.SelectMany(member => NamesIn(member.Value).Prepend(member.Key)),
        JsonArray items => items.SelectMany(NamesIn),
        _ => [],
    };
}
