using System.Text.Json;
using Swardloop.Client.Cases;
using Swardloop.Client.Wording;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Steps;

namespace Swardloop.Client.Tests.Cases;

public class ReadingDraftTests
{
    public static TheoryData<StepKind> Kinds => [.. Enum.GetValues<StepKind>()];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Form_of_every_step_makes_an_observation_that_is_read_and_can_be_opened_again(StepKind kind)
    {
        Speech say = Saying(Tongue.German, feet: false);
        ReadingDraft draft = new(kind, null, say);
        double place = 2;
        foreach (StepField field in draft.Fields)
        {
            draft[field.Name] = field.Type switch
            {
                StepFieldType.Place => say.Typed(place += 1.5),
                StepFieldType.Number => "3,25",
                StepFieldType.Word => field.Words[0],
                StepFieldType.Flag => "true",
                _ => "a thimble",
            };
        }

        JsonElement json = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults);

        Assert.Empty(faults);
        ProblemList problems = new("");
        Observation seen = ObservationJson.Read(json, "", 50, problems)!;
        Assert.Equal(kind, seen.Step);
        Assert.Equal(json.GetRawText(), ReadingDraft.Of(json, kind, say).ToJson(say, 50, DateTimeOffset.UnixEpoch, out _).GetRawText());
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Step_that_could_not_be_done_needs_no_answer_and_can_be_opened_again(StepKind kind)
    {
        Speech say = Saying(Tongue.German, feet: false);
        ReadingDraft draft = new(kind, null, say) { IsNotDone = true, Conditions = Conditions.Wet | Conditions.Moved, Note = "gate locked" };

        JsonElement json = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults);

        Assert.Empty(faults);
        Observation.NotDone seen = Assert.IsType<Observation.NotDone>(ObservationJson.Read(json, "", 50, new("")));
        Assert.Equal((kind, Conditions.Wet | Conditions.Moved, "gate locked"), (seen.Step, seen.Conditions, seen.Note));
        Assert.Equal(json.GetRawText(), ReadingDraft.Of(json, kind, say).ToJson(say, 50, DateTimeOffset.UnixEpoch, out _).GetRawText());
        ReadingDraft kept = ReadingDraft.From(draft.ToFields().ToDictionary(each => each.Field, each => each.Text), say)!;
        Assert.Equal(json.GetRawText(), kept.ToJson(say, 50, DateTimeOffset.UnixEpoch, out _).GetRawText());
    }

    [Fact]
    public void Place_on_a_guide_wire_is_measured_along_it()
    {
        Speech say = Saying(Tongue.English, feet: false);
        GuideWire guide = new("G1", 20, new([new(0, 0), new(0, 12)]));
        ReadingDraft draft = new(StepKind.Wiggle, new Step(StepKind.Wiggle) { AtMetres = 11, Wire = "G1" }, say) { ["value"] = "jumps" };

        JsonElement json = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults, [guide]);
        Assert.Empty(faults);
        Assert.Equal("G1", json.GetProperty("wire").GetString());
        Assert.Equal("G1", ReadingDraft.Of(json, StepKind.Wiggle, say).Wire);

        draft["atM"] = "20";
        _ = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out faults, [guide]);
        Assert.Equal("atM", Assert.Single(faults).Key);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Empty_form_names_every_answer_that_is_missing(StepKind kind)
    {
        Speech say = Saying(Tongue.English, feet: false);
        ReadingDraft draft = new(kind, null, say);

        _ = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults);

        Assert.Equal(draft.Fields.Where(field => field.Required).Select(field => field.Name).Order(), faults.Keys.Order());
    }

    [Fact]
    public void Fault_stands_at_its_field()
    {
        Speech say = Saying(Tongue.English, feet: false);
        ReadingDraft draft = new(StepKind.ToneTrace, null, say) { ["atM"] = "70", ["from"] = "A", ["value"] = "weak" };

        _ = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults);

        Assert.Equal("atM", Assert.Single(faults).Key);
    }

    [Fact]
    public void Over_range_is_an_answer()
    {
        Speech say = Saying(Tongue.English, feet: false);
        ReadingDraft draft = new(StepKind.LoopResistance, null, say);
        draft.SetOverRange("ohms", true);

        JsonElement json = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out IReadOnlyDictionary<string, string> faults);

        Assert.Empty(faults);
        ProblemList problems = new("");
        Assert.Null(Assert.IsType<Observation.LoopResistance>(ObservationJson.Read(json, "", 50, problems)).Ohms);
    }

    [Fact]
    public void Places_typed_in_feet_are_kept_in_metres()
    {
        Speech say = Saying(Tongue.English, feet: true);
        ReadingDraft draft = new(StepKind.Look, null, say) { ["fromM"] = "10", ["toM"] = "20", ["value"] = "nothing" };

        JsonElement json = draft.ToJson(say, 50, DateTimeOffset.UnixEpoch, out _);

        Assert.Equal(3.048, json.GetProperty("fromM").GetDouble());
    }

    private static Speech Saying(Tongue tongue, bool feet)
    {
        Speech say = new(new MemoryPage());
        say.Choose(tongue, feet, null);
        return say;
    }
}
