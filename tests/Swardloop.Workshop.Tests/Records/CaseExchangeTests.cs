using System.Text;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Tests.Records;

public class CaseExchangeTests
{
    private const string File = """
        { "format": "swardloop-case/1", "complaint": "stops in mid-lawn",
          "yard": { "format": "swardloop-yard/1", "name": "Bramble Fold", "loop": {
            "path": [[10,0],[20,0],[20,20],[0,20],[0,0],[10,0]], "conductor": { "material": "copper", "areaMm2": 0.75 } } },
          "observations": [ { "test": "station-lamp", "value": "normal" }, { "test": "loop-resistance", "ohms": 57, "mine": 1 } ] }
        """;

    [Fact]
    public void File_from_elsewhere_twice_is_taken_in_once()
    {
        Dictionary<Guid, RecordState> records = [];

        int first = TakeIn(records, File), second = TakeIn(records, File);

        Assert.Equal(4, first);
        Assert.Equal(0, second);
        Assert.Equal(2, records.Values.Count(record => record.Kind == RecordKind.Observation));
    }

    [Fact]
    public void Later_file_with_one_more_observation_adds_just_that()
    {
        Dictionary<Guid, RecordState> records = [];
        TakeIn(records, File);

        int added = TakeIn(records, File.Replace("57, \"mine\": 1 }", "57, \"mine\": 1 }, { \"test\": \"follow-wire\", \"value\": \"lost\" }", StringComparison.Ordinal));

        Assert.Equal(1, added);
        IReadOnlyList<RecordState> order = ObservationOrder.Sort(records.Values.Where(record => record.Kind == RecordKind.Observation));
        Assert.Equal(["station-lamp", "loop-resistance", "follow-wire"], order.Select(one => one.Value("reading")!.Value.GetProperty("test").GetString()));
    }

    [Fact]
    public void Other_layout_of_the_same_file_adds_nothing_and_the_same_reading_made_again_is_one_more()
    {
        Dictionary<Guid, RecordState> records = [];
        TakeIn(records, File);

        Assert.Equal(0, TakeIn(records, File.Replace("{ \"test\"", "{\n  \"test\"", StringComparison.Ordinal)));
        Assert.Equal(1, TakeIn(records, File.Replace("57, \"mine\": 1 }", "57, \"mine\": 1 }, { \"test\": \"station-lamp\", \"value\": \"normal\" }", StringComparison.Ordinal)));
    }

    [Fact]
    public void Exported_case_taken_back_in_adds_nothing_and_elsewhere_everything_under_the_same_ids()
    {
        Dictionary<Guid, RecordState> here = [];
        TakeIn(here, File);
        string exported = Encoding.UTF8.GetString(CaseExchange.Export(
            here.Values.Single(record => record.Kind == RecordKind.Case), here.Values.Single(record => record.Kind == RecordKind.Yard),
            here.Values.Where(record => record.Kind == RecordKind.Observation), null));
        Dictionary<Guid, RecordState> there = [];

        Assert.Equal(0, TakeIn(here, exported));
        Assert.Equal(4, TakeIn(there, exported));

        Assert.Equal(here.Keys.Order(), there.Keys.Order());
        Assert.Contains("\"mine\": 1", exported, StringComparison.Ordinal);
    }

    [Fact]
    public void File_whose_yard_lies_elsewhere_is_refused_with_its_place()
    {
        Checked<IReadOnlyList<Change>> read = CaseExchange.Import(
            """{ "format": "swardloop-case/1", "yard": "other.yard.json" }"""u8.ToArray(), "a.case.json", _ => false, DateTimeOffset.UnixEpoch);

        Assert.Equal("yard", Assert.Single(read.Problems).Place);
    }

    [Fact]
    public void News_of_a_file_count_what_is_new_and_name_what_the_workshop_has_otherwise()
    {
        Dictionary<Guid, RecordState> records = [];
        CaseFileNews first = NewsOf(records, File);
        Assert.Equal((4, 2, "Bramble Fold"), (first.Changes.Count, first.Observations, first.YardName));
        Assert.Empty(first.Differing);
        TakeIn(records, File);
        Assert.Empty(NewsOf(records, File).Changes);
        Assert.Empty(NewsOf(records, File).Differing);

        string exported = Encoding.UTF8.GetString(CaseExchange.Export(
            records[first.Case], records.Values.Single(record => record.Kind == RecordKind.Yard), records.Values.Where(record => record.Kind == RecordKind.Observation), null));
        CaseFileNews differing = NewsOf(records, exported.Replace("stops in mid-lawn", "stops at dusk", StringComparison.Ordinal).Replace("57", "75", StringComparison.Ordinal));

        Assert.Empty(differing.Changes);
        Assert.Equal([(RecordKind.Case, "complaint"), (RecordKind.Observation, "reading")], differing.Differing);
        Assert.False(CaseExchange.News("[]"u8.ToArray(), "wrong.json", _ => null, DateTimeOffset.UnixEpoch).IsGood);
    }

    private static CaseFileNews NewsOf(Dictionary<Guid, RecordState> records, string file) =>
        CaseExchange.News(Encoding.UTF8.GetBytes(file), "case.json", records.GetValueOrDefault, DateTimeOffset.UnixEpoch).Value!;

    [Fact]
    public void A_workshops_pace_and_what_it_never_does_stand_in_every_case_file()
    {
        Dictionary<Guid, RecordState> records = [];
        TakeIn(records, File.Replace("\"observations\"", "\"can\": { \"without\": [\"bypass\"] }, \"observations\"", StringComparison.Ordinal));
        RecordState rates = RecordState.New(Ids.Rates, RecordKind.Rates).With(new(Guid.NewGuid(), RecordKind.Rates, Ids.Rates, new Dictionary<string, JsonElement>
        {
            ["steps"] = JsonDocument.Parse("""{ "mend-span": { "minutes": 25 } }""").RootElement,
            ["without"] = JsonDocument.Parse("\"pin-probe bypass\"").RootElement,
        }, new Dictionary<string, IReadOnlyList<Guid>>(), DateTimeOffset.UnixEpoch), "desk");

        ServiceCase made = CaseAssembly.CaseFileOf(
            records.Values.Single(record => record.Kind == RecordKind.Case), records.Values.Single(record => record.Kind == RecordKind.Yard),
            records.Values.Where(record => record.Kind == RecordKind.Observation), rates).Value!.Case;

        Assert.Equal(25, made.Rates.Pace.Of(StepKind.MendSpan).Minutes);
        Assert.Equal([StepKind.Bypass, StepKind.PinProbe], made.Can.Without.Kinds);
    }

    private static int TakeIn(Dictionary<Guid, RecordState> records, string file)
    {
        Checked<IReadOnlyList<Change>> read = CaseExchange.Import(
            Encoding.UTF8.GetBytes(file), "a.case.json", records.ContainsKey, new(2026, 5, 14, 9, 0, 0, TimeSpan.Zero));
        Assert.True(read.IsGood, string.Join(" | ", read.Lines()));
        foreach (Change change in read.Value)
        {
            RecordState before = records.GetValueOrDefault(change.Record) ?? RecordState.New(change.Record, change.Kind);
            ProblemList problems = new("");
            ChangeChecks.Check(change, before, "", problems);
            Assert.Empty(problems.Kept);
            records[change.Record] = before.With(change, "desk");
        }

        return read.Value.Count;
    }
}
