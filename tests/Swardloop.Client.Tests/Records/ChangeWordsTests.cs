using Swardloop.Client.Device;
using Swardloop.Client.Records;
using Swardloop.Workshop.Records;

namespace Swardloop.Client.Tests.Records;

/// <summary>A record's history is told in words.</summary>
public class ChangeWordsTests
{
    [Theory]
    [InlineData("en-GB", "What was seen → ", "Complaint → stops beside the pond", "State → Visit planned", "Promised for → 14 May 2026")]
    [InlineData("de-DE", "Was gesehen wurde → ", "Beschwerde → stops beside the pond", "Stand → Besuch geplant", "Zugesagt für → 14.05.2026")]
    public async Task Every_value_is_said_in_words_and_none_as_it_is_stored(string language, params string[] says)
    {
        using Scene scene = new(page: new() { Language = language });
        await scene.StartAsync();
        Guid owner = scene.Device.Replica.NewId(scene.Device.Now);
        await scene.ChangeAsync(owner, RecordKind.Owner, ("name", Json.Text("Hazel Thimble")));
        Guid yard = await scene.AddYardAsync("sorrel-corner.yard.json", "Sorrel Corner");
        await scene.ChangeAsync(yard, RecordKind.Yard, ("owner", Json.Text(owner.ToString())));
        Guid @case = await scene.AddCaseAsync(yard, """{ "test": "loop-resistance", "ohms": 61, "leadOhms": 0.2, "at": "2026-05-14T09:00:00+02:00", "by": "owner" }""");
        RecordState observation = Assert.Single(scene.Device.Replica.OfKind(RecordKind.Observation));

        string[] lines =
        [
            .. Sets(yard, RecordKind.Yard, ("owner", Json.Text(owner.ToString())), ("file", scene.Device.Replica[yard]!.Value("file")!.Value)),
            .. Sets(@case, RecordKind.Case, ("complaint", Json.Text("stops beside the pond")), ("state", Json.Text("visit-planned")), ("promisedOn", Json.Text("2026-05-14")), ("onSite", Json.Flag(true)),
                ("can", Json.Parse("""{"technician":true,"owner":true,"ownerInstruments":["multimeter"]}"""))),
            .. Sets(observation.Id, RecordKind.Observation, ("reading", observation.Value("reading")!.Value), ("struck", null)),
        ];

        Assert.Contains(lines, line => line.EndsWith("→ Hazel Thimble", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.Contains("61 Ω", StringComparison.Ordinal));
        Assert.All(says, said => Assert.Contains(lines, line => line.StartsWith(said, StringComparison.Ordinal)));
        Assert.All(lines, line => Assert.DoesNotMatch("[{}\\[\\]\"]|true|false|null|[0-9a-f]{8}-[0-9a-f]{4}", line));

        IEnumerable<string> Sets(Guid record, RecordKind kind, params (string Field, System.Text.Json.JsonElement? Value)[] set) => ChangeWords.Sets(
            new Change(Guid.CreateVersion7(), kind, record, set.ToDictionary(each => each.Field, each => each.Value ?? Json.Parse("null")), new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UnixEpoch),
            scene.Speech, scene.Device.Replica);
    }
}
