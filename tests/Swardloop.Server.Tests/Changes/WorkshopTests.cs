using Swardloop.Server.Serving;
using Swardloop.Server.Tests.Serving;
using Swardloop.Workshop;
using Swardloop.Workshop.Api;
using Swardloop.Workshop.Records;

namespace Swardloop.Server.Tests.Changes;

/// <summary>What every database has to do alike. One class derived from it per database.</summary>
public abstract class WorkshopTests
{
    private protected abstract Task<WorkshopPlace> PlaceAsync();

    private async Task<Served> ServeAsync() => await Served.StartAsync(await PlaceAsync());

    [Fact]
    public async Task What_was_kept_is_read_back()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid owner, Guid yard, Guid @case, Guid observation) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        await desk.KeepAsync(
            Made.Owner(owner), Made.Yard(yard, owner), Made.Case(@case, yard), Made.Observation(observation, yard, @case, """{"test":"station-lamp","value":"normal"}"""));

        RecordPage page = await desk.PageAsync();
        Assert.Equal([owner, yard, @case, observation], page.Records.Select(record => record.Id));
        Assert.Equal([1, 2, 3, 4], page.Records.Select(record => record.Version));
        Assert.True(page.Complete);
        Assert.Equal("Robin Desk", page.Records[0]["name"].Shown?.By);

        YardBundle bundle = (await desk.GetFromJsonAsync($"/api/cases/{@case}/bundle", WorkshopJson.Default.YardBundle))!;
        Assert.Equal(yard, bundle.Yard.Id);
        Assert.Equal(3, bundle.Records.Count);
        IReadOnlyList<HistoryEntry> history = (await desk.GetFromJsonAsync($"/api/records/{owner}/history", WorkshopJson.Default.IReadOnlyListHistoryEntry))!;
        Assert.Equal("Robin Desk", Assert.Single(history).By);
        Bench bench = (await desk.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!;
        Assert.Equal("Tamsin Brook", Assert.Single(bench.Cases).OwnerName);
    }

    [Fact]
    public async Task Sent_twice_is_taken_in_once()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Change change = Made.Owner(Guid.CreateVersion7());
        await desk.KeepAsync(change, change);
        await desk.KeepAsync(change);
        Assert.Equal(1, Assert.Single((await desk.PageAsync()).Records).Version);

        Change other = change with { Set = new Dictionary<string, JsonElement> { ["phone"] = change.Set["phone"], ["email"] = change.Set["phone"] } };
        Assert.Equal(ChangeStatus.Refused, Assert.Single(await desk.SendAsync(other)).Status);
    }

    [Fact]
    public async Task Two_who_did_not_know_of_each_other_are_both_shown()
    {
        await using Served served = await ServeAsync();
        using HttpClient one = await served.AsAsync(Role.Desk);
        using HttpClient other = await served.AsAsync(Role.Technician);
        Guid owner = Guid.CreateVersion7();
        Change made = Made.Change(RecordKind.Owner, owner, new() { ["name"] = "Tamsin Brook" });
        await one.KeepAsync(made);
        Change first = Made.Change(RecordKind.Owner, owner, new() { ["name"] = "Tamsin Brooke" }, ("name", [made.Id]));
        Change second = Made.Change(RecordKind.Owner, owner, new() { ["name"] = "T. Brook" }, ("name", [made.Id]));
        await one.KeepAsync(first);
        ChangeResult result = Assert.Single(await other.SendAsync(second));
        Assert.Equal(ChangeStatus.Conflict, result.Status);
        Assert.Equal(
            [("T. Brook", "Robin Technician"), ("Tamsin Brooke", "Robin Desk")],
            result.Record!["name"].Values.Select(value => (value.Value.GetString(), value.By)).Order());

        await one.KeepAsync(Made.Change(RecordKind.Owner, owner, new() { ["name"] = "Tamsin Brook" }, ("name", [first.Id, second.Id])));
        Assert.Empty((await one.PageAsync()).Records.Single().Conflicts);
    }

    [Fact]
    public async Task Everything_wrong_is_told_at_once_and_nothing_of_it_kept()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid yard = Guid.CreateVersion7();
        IReadOnlyList<ChangeResult> results = await desk.SendAsync(
            Made.Yard(yard),
            Made.Change(RecordKind.Case, Guid.CreateVersion7(), new() { ["complaint"] = 3, ["state"] = "asleep", ["speed"] = 1 }),
            Made.Case(Guid.CreateVersion7(), Guid.CreateVersion7()),
            Made.Change(RecordKind.Rates, Ids.Rates, new() { ["labourPerHour"] = 60 }),
            Made.Change(RecordKind.Owner, Guid.CreateVersion7(), new() { ["name"] = "a\u0000b" }));
        Assert.Equal([ChangeStatus.Kept, .. Enumerable.Repeat(ChangeStatus.Refused, 4)], results.Select(result => result.Status));
        Assert.Equal(
            ["changes[1].set.complaint", "changes[1].set.speed", "changes[1].set.state", "changes[1].set.yard"],
            results[1].Problems.Select(problem => problem.Place).Order(StringComparer.Ordinal));
        Assert.Equal("changes[2].set.yard", Assert.Single(results[2].Problems).Place);
        Assert.Single((await desk.PageAsync()).Records);

        HttpResponseMessage answer = await desk.PostAsync("/api/changes", Served.Json("""{"changes":[{"id":1,"kind":"x"},2]}"""));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        ProblemReply reply = (await answer.Content.ReadFromJsonAsync(WorkshopJson.Default.ProblemReply))!;
        Assert.Equal(6, reply.Problems.Count);
    }

    [Fact]
    public async Task Observations_stay_on_their_yard()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid other, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        await desk.KeepAsync(Made.Yard(yard), Made.Yard(other), Made.Case(@case, yard));
        ChangeResult result = Assert.Single(await desk.SendAsync(Made.Observation(Guid.CreateVersion7(), other, @case, """{"test":"station-lamp","value":"off"}""")));
        Assert.Equal("changes[0].set.case", Assert.Single(result.Problems).Place);
    }

    /// <summary>Writers at the same time, a reader beside them who asks for what came after the number it knows: it sees every number once.</summary>
    [Fact]
    public async Task A_reader_skips_nothing_while_others_write()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        const int Writers = 4, Each = 15;
        Task[] writing = [.. Enumerable.Range(0, Writers).Select(async writer =>
        {
            for (int i = 0; i < Each; i++)
            {
                await desk.KeepAsync(Made.Owner(Guid.CreateVersion7(), $"Owner {writer} {i}"));
            }
        })];
        List<long> seen = [];
        while (seen.Count < Writers * Each)
        {
            RecordPage page = await desk.PageAsync(seen.LastOrDefault(), 7);
            seen.AddRange(page.Records.Select(record => record.Version));
            Assert.True(seen.Count > 0 || !writing.All(task => task.IsCompleted) || page.Records.Count > 0);
        }

        await Task.WhenAll(writing);
        Assert.Equal(Enumerable.Range(1, Writers * Each).Select(number => (long)number), seen);
    }

    [Fact]
    public async Task Search_finds_by_any_words_of_owner_yard_and_case()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid owner, Guid yard, Guid @case) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        await desk.KeepAsync(Made.Owner(owner, "Zoë Bröök"), Made.Yard(yard, owner), Made.Case(@case, yard));
        async Task<RecordKind[]> Find(string words) =>
            [.. (await desk.GetFromJsonAsync($"/api/search?q={Uri.EscapeDataString(words)}", WorkshopJson.Default.IReadOnlyListSearchHit))!.Select(hit => hit.Kind)];
        Assert.Equal([RecordKind.Owner, RecordKind.Yard, RecordKind.Case], await Find("zoe BROOK"));
        Assert.Equal([RecordKind.Yard, RecordKind.Case], await Find("zoe mill"));
        Assert.Equal([RecordKind.Case], await Find("middle sorrel"));
        Assert.Equal([RecordKind.Owner, RecordKind.Yard, RecordKind.Case], await Find("01632960123"));
        Assert.Empty(await Find("100% _"));
        Assert.Empty(await Find("  "));
    }

    [Fact]
    public async Task A_closed_case_feeds_the_workshops_counts_and_an_open_one_gets_advice()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        (Guid yard, Guid open, Guid closed) = (Guid.CreateVersion7(), Guid.CreateVersion7(), Guid.CreateVersion7());
        Change made = Made.Case(closed, yard);
        await desk.KeepAsync(
            Made.Yard(yard), Made.Case(open, yard), made,
            Made.Observation(Guid.CreateVersion7(), yard, open, """{"test":"station-lamp","value":"alarm"}"""),
            Made.Change(RecordKind.Case, closed, new() { ["state"] = "closed", ["foundCause"] = "leak" }, ("state", [made.Id])));
        await Eventually(async () => (await desk.GetStringAsync("/api/priors")).Contains("\"leak\": 1", StringComparison.Ordinal));
        await Eventually(async () => (await desk.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!.Cases is [{ Cause: "open", NextStep: not null, Probability: > 0.5 }]);
    }

    [Fact]
    public async Task A_yard_whose_reading_leaves_little_is_about_to_go_quiet()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        Guid yard = Guid.CreateVersion7();
        await desk.KeepAsync(Made.Yard(yard), Made.Observation(
            Guid.CreateVersion7(), yard, null, """{"test":"loop-resistance","ohms":3000,"leadOhms":1,"at":"2026-05-14T09:30:00+02:00"}"""));
        QuietYard? quiet = null;
        await Eventually(async () => (quiet = (await desk.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!.Quiet.SingleOrDefault()) is not null);
        Assert.Equal((yard, 2999), (quiet!.Yard, quiet.Ohms));
        Assert.True(quiet.SpareOhms < 0 && quiet.ExpectedOhms is > 0.5 and < 10);
        await desk.KeepAsync(Made.Observation(Guid.CreateVersion7(), yard, null, """{"repair":"renew-loop"}"""));
        Assert.Empty((await desk.GetFromJsonAsync("/api/bench", WorkshopJson.Default.Bench))!.Quiet);
    }

    [Fact]
    public async Task Pages_hear_of_a_change_at_once()
    {
        await using Served served = await ServeAsync();
        using HttpClient desk = await served.AsAsync(Role.Desk);
        using Stream stream = await desk.GetStreamAsync("/api/events");
        using StreamReader events = new(stream);
        Assert.Equal("event: hello", await events.ReadLineAsync(TestContext.Current.CancellationToken));
        Guid owner = Guid.CreateVersion7();
        await desk.KeepAsync(Made.Owner(owner));
        string? data = null;
        while (data is null && await events.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            data = line.StartsWith("data: {", StringComparison.Ordinal) ? line[6..] : null;
        }

        Assert.Equal(new(1, owner, RecordKind.Owner), JsonSerializer.Deserialize(data!, WorkshopJson.Default.ChangedRecord));
    }

    /// <summary>Waits for work in the background, as long as the test may take.</summary>
    private static async Task Eventually(Func<Task<bool>> holds)
    {
        while (!await holds())
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }
}
