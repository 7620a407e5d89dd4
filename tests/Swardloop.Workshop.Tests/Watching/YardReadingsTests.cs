using System.Text.Json;
using System.Text.Json.Nodes;
using Swardloop.Core.Conductors;
using Swardloop.Core.Forecasting;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Watching;

namespace Swardloop.Workshop.Tests.Watching;

/// <summary>Which readings of a yard's cases the forecast rests on. The loop is 88 m of 0.75 mm² copper: sound it measures about 2 Ω.</summary>
public sealed class YardReadingsTests
{
    private static readonly Yard Yard = new()
    {
        Name = "Teasel Bank",
        Datum = new(52, 7),
        Lawn = new Lawn([new PlanPoint[] { new(0, 0), new(18, 0), new(18, 26), new(0, 26) }], []),
        Loop = new Loop
        {
            Path = new WirePath([new(9, 0), new(18, 0), new(18, 26), new(0, 26), new(0, 0), new(9, 0)]),
            Conductor = new Conductor { AreaSquareMetres = 0.75e-6 },
            Joints = [new(20, JointStyle.Twisted)],
        },
    };

    private readonly Guid _yard = Guid.CreateVersion7();
    private readonly List<RecordState> _cases = [], _observations = [];

    [Fact]
    public void Readings_of_all_cases_and_of_none_stand_by_their_day()
    {
        Guid first = Case(), second = Case();
        Reading(second, 4.2, "2026-06-01");
        Reading(first, 3.2, "2025-06-01", "wet");
        Reading(null, 2.7, "2024-06-01");
        YardReadings read = Read();
        Assert.Equal([2.7, 3.2, 4.2], read.Readings.Select(one => one.Ohms));
        Assert.Equal([false, true, false], read.Readings.Select(one => one.Wet));
        Assert.All(read.Readings, one => Assert.Equal(LoopBeginning.None, one.Begins));
    }

    [Theory]
    [InlineData("""{"repair":"remake-joint","atM":20}""", LoopBeginning.Mended)]
    [InlineData("""{"test":"split-resistance","atM":20,"ohmsA":1.2,"ohmsB":1.1}""", LoopBeginning.Mended)]
    [InlineData("""{"repair":"replace-supply"}""", LoopBeginning.None)]
    public void A_mend_of_the_wire_begins_another_state_and_a_new_supply_does_not(string repair, LoopBeginning begins)
    {
        Guid @case = Case();
        Reading(null, 8, "2025-06-01");
        Seen(@case, repair, "2025-07-01");
        Assert.Equal(begins == LoopBeginning.Mended, Read().IsMendedSince);
        Reading(@case, 2.2, "2025-07-01");
        YardReadings read = Read();
        Assert.False(read.IsMendedSince);
        Assert.Equal([LoopBeginning.None, begins], read.Readings.Select(one => one.Begins));
    }

    [Theory]
    [InlineData(2.2, LoopBeginning.Accepted)]
    [InlineData(60, LoopBeginning.None)]
    [InlineData(0.4, LoopBeginning.None)]
    public void A_signed_reading_is_the_baseline_only_within_the_band_of_a_sound_loop(double ohms, LoopBeginning begins)
    {
        Guid @case = Case();
        Reading(null, 3, "2025-06-01");
        Guid signed = Reading(@case, ohms, "2025-07-01");
        Sign(@case, signed);
        Reading(@case, 44, "2025-08-01");
        Assert.Equal([LoopBeginning.None, begins, LoopBeginning.None], Read().Readings.Select(one => one.Begins));
    }

    [Fact]
    public void A_signature_without_its_reading_means_the_last_one_until_then()
    {
        Guid @case = Case();
        Reading(@case, 2.1, "2025-07-01");
        Sign(@case, null);
        Reading(@case, 2.3, "2025-08-01");
        Assert.Equal([LoopBeginning.Accepted, LoopBeginning.None], Read().Readings.Select(one => one.Begins));
    }

    [Fact]
    public void A_signed_reading_that_was_corrected_since_is_no_baseline()
    {
        Guid @case = Case();
        Guid signed = Reading(@case, 2.2, "2025-07-01");
        Sign(@case, signed);
        Seen(@case, """{"test":"loop-resistance","ohms":2.4}""", "2025-07-01", corrects: signed);
        YardReadings read = Read();
        Assert.Equal((2.4, LoopBeginning.None), (read.Readings[0].Ohms, Assert.Single(read.Readings).Begins));
        (RecordState? reading, bool hasChanged) = YardReadings.Accepted(_cases[0], ObservationOrder.ThatCount(_observations));
        Assert.Null(reading);
        Assert.True(hasChanged);
    }

    [Fact]
    public void An_over_range_loop_is_broken_until_it_is_read_again()
    {
        Reading(null, 2.2, "2025-06-01");
        Seen(null, """{"test":"loop-resistance","value":"over-range"}""", "2025-07-01");
        Assert.Equal(new DateOnly(2025, 7, 1), Read().BrokenOn);
        Assert.Single(Read().Readings);
        Reading(null, 2.3, "2025-07-02");
        Assert.Null(Read().BrokenOn);
    }

    // A device whose clock lags wrote the reading down after the mend, and before it by its clock.
    [Fact]
    public void Within_a_case_the_order_counts_and_not_the_clocks()
    {
        Guid @case = Case();
        Reading(null, 9, "2025-06-01");
        Guid mend = Seen(@case, """{"repair":"remake-terminals"}""", "2025-07-02");
        Seen(@case, """{"test":"loop-resistance","ohms":2.2}""", "2025-07-01", after: mend);
        Assert.Equal([LoopBeginning.None, LoopBeginning.Mended], Read().Readings.Select(one => one.Begins));
    }

    private YardReadings Read() => YardReadings.Of(Yard, _cases, _observations);

    private Guid Case()
    {
        RecordState made = RecordState.New(Guid.CreateVersion7(), RecordKind.Case);
        _cases.Add(With(made, new() { ["yard"] = _yard.ToString() }));
        return made.Id;
    }

    private void Sign(Guid @case, Guid? reading)
    {
        int at = _cases.FindIndex(one => one.Id == @case);
        JsonObject set = new() { ["acceptedBy"] = "Odo Quillfeather", ["acceptedAt"] = "2025-07-02T09:00:00+02:00" };
        if (reading is { } signed)
        {
            set["acceptedReading"] = signed.ToString();
        }

        _cases[at] = With(_cases[at], set);
    }

    private Guid Reading(Guid? @case, double ohms, string day, params string[] conditions) => Seen(
        @case,
        new JsonObject { ["test"] = "loop-resistance", ["ohms"] = ohms, ["leadOhms"] = 0.2, ["conditions"] = new JsonArray([.. conditions.Select(one => (JsonNode)one)]) }.ToJsonString(), day);

    private Guid Seen(Guid? @case, string reading, string day, Guid? after = null, Guid? corrects = null)
    {
        JsonObject seen = JsonNode.Parse(reading)!.AsObject();
        seen["at"] = $"{day}T10:00:00+02:00";
        JsonObject set = new() { ["yard"] = _yard.ToString(), ["reading"] = seen };
        foreach ((string field, Guid? id) in ((string, Guid?)[])[("case", @case), ("after", after ?? _observations.LastOrDefault(one => one.Reference("case") == @case)?.Id), ("corrects", corrects)])
        {
            if (id is { } named)
            {
                set[field] = named.ToString();
            }
        }

        RecordState made = With(RecordState.New(Guid.CreateVersion7(), RecordKind.Observation), set);
        _observations.Add(made);
        return made.Id;
    }

    private static RecordState With(RecordState record, JsonObject set)
    {
        using JsonDocument document = JsonDocument.Parse(set.ToJsonString());
        return record.With(
            new(Guid.CreateVersion7(), record.Kind, record.Id, document.RootElement.EnumerateObject().ToDictionary(field => field.Name, field => field.Value.Clone()),
                new Dictionary<string, IReadOnlyList<Guid>>(), new(2025, 7, 2, 9, 0, 0, TimeSpan.Zero)),
            "Robin");
    }
}
