using System.Globalization;
using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Forecasting;
using Swardloop.Core.Yards;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Model.Forecasting;
using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Watching;

/// <summary>The loop readings of a yard over all its cases and visits, as the forecast takes them: in order, with the mends and the signed acceptances that begin another state of the loop.</summary>
public sealed record YardReadings
{
    /// <summary>The readings, by day.</summary>
    public required IReadOnlyList<LoopRecord> Readings { get; init; }

    /// <summary>Whether the wire was mended after the last of them: nothing says how it is now.</summary>
    public required bool IsMendedSince { get; init; }

    /// <summary>The day of the last reading where that one was over-range: the loop is broken; else null.</summary>
    public required DateOnly? BrokenOn { get; init; }

    /// <summary>Collects them.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="cases">Its cases.</param>
    /// <param name="observations">All its observations, of any case and of none.</param>
    public static YardReadings Of(Yard yard, IEnumerable<RecordState> cases, IEnumerable<RecordState> observations)
    {
        Dictionary<Guid, RecordState> byId = cases.ToDictionary(one => one.Id);
        List<Event> events = [];
        foreach (IGrouping<Guid?, RecordState> ofCase in observations.GroupBy(one => one.Reference("case")))
        {
            IReadOnlyList<RecordState> counting = ObservationOrder.ThatCount(ofCase);
            RecordState? signed = ofCase.Key is { } id && byId.TryGetValue(id, out RecordState? itsCase) ? Accepted(itsCase, counting).Reading : null;
            // Within a case the order counts, whatever a device's clock said.
            DateTimeOffset before = DateTimeOffset.MinValue;
            foreach (RecordState one in counting)
            {
                if (SeenIn(one) is not { } seen)
                {
                    continue;
                }

                DateTimeOffset own = seen.At ?? one["reading"].Shown!.MadeAt;
                before = own > before ? own : before;
                if (seen is Observation.LoopResistance loop)
                {
                    LoopRecord? record = LoopRecords.Of(loop, own);
                    bool isBaseline = record is not null && one == signed
                        && Acceptance.Judge(yard, LoopRecords.AsFiled(yard, loop, record)).Verdict == AcceptanceVerdict.Within;
                    events.Add(new(before, own, record, IsMend: false, isBaseline));
                }
                else if (LoopRecords.BeginsAnew(seen, yard.Loop))
                {
                    events.Add(new(before, own, null, IsMend: true, false));
                }
            }
        }

        return Of(events);
    }

    /// <summary>The last loop reading of a case that counts; null when there is none.</summary>
    /// <param name="ofCase">All observations of the case, in any order.</param>
    public static RecordState? LastLoopReading(IEnumerable<RecordState> ofCase) => ObservationOrder.ThatCount(ofCase).LastOrDefault(IsLoopReading);

    /// <summary>The reading that a case's acceptance was signed for.</summary>
    /// <param name="case">The case.</param>
    /// <param name="counting">Its observations that count, in order.</param>
    /// <returns>The reading, null where nothing is signed; and whether one was signed for that was corrected or struck out since.</returns>
    public static (RecordState? Reading, bool HasChanged) Accepted(RecordState @case, IReadOnlyList<RecordState> counting)
    {
        if (@case.Text("acceptedBy") is not { Length: > 0 })
        {
            return (null, false);
        }

        if (@case.Reference("acceptedReading") is { } id)
        {
            RecordState? named = counting.FirstOrDefault(one => one.Id == id);
            return (named, named is null);
        }

        // Signed before the reading was written down with the signature: the last one made until then.
        DateTimeOffset until = DateTimeOffset.TryParse(@case.Text("acceptedAt"), CultureInfo.InvariantCulture, out DateTimeOffset at) ? at : DateTimeOffset.MaxValue;
        return (counting.LastOrDefault(one => IsLoopReading(one) && (SeenIn(one)?.At ?? one["reading"].Shown!.MadeAt) <= until), false);
    }

    private static YardReadings Of(List<Event> events)
    {
        // OrderBy keeps what came first of the same moment first.
        List<LoopRecord> readings = [];
        bool isMended = false;
        DateOnly? broken = null;
        foreach (Event one in events.OrderBy(one => one.Order))
        {
            if (one.IsMend)
            {
                (isMended, broken) = (true, null);
            }
            else if (one.Record is { } record)
            {
                LoopBeginning begins = one.IsBaseline ? LoopBeginning.Accepted : isMended && readings.Count > 0 ? LoopBeginning.Mended : LoopBeginning.None;
                readings.Add(record with { Begins = begins });
                (isMended, broken) = (false, null);
            }
            else
            {
                broken = DateOnly.FromDateTime(one.At.DateTime);
            }
        }

        return new() { Readings = [.. readings.OrderBy(record => record.At)], IsMendedSince = isMended, BrokenOn = broken };
    }

    private static bool IsLoopReading(RecordState observation) =>
        observation.Value("reading") is { ValueKind: JsonValueKind.Object } reading
        && reading.TryGetProperty("test", out JsonElement test) && test.ValueKind == JsonValueKind.String && test.ValueEquals("loop-resistance")
        && SeenIn(observation) is Observation.LoopResistance;

    private static Observation? SeenIn(RecordState observation)
    {
        ProblemList problems = new("");
        return observation.Value("reading") is { ValueKind: JsonValueKind.Object } reading ? ObservationJson.Read(reading, "", null, problems) : null;
    }

    private sealed record Event(DateTimeOffset Order, DateTimeOffset At, LoopRecord? Record, bool IsMend, bool IsBaseline);
}
