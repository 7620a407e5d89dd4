using Swardloop.Client.Records;
using Swardloop.Core.Budget;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Yards;

/// <summary>The loop readings of a yard, over all its cases and visits.</summary>
public static class LoopReadings
{
    /// <summary>Readings that count, oldest first.</summary>
    public static IReadOnlyList<LoopReadingAt> Of(Replica replica, Guid yard, LoopBudget budget)
    {
        List<LoopReadingAt> readings = [];
        foreach (IGrouping<Guid?, RecordState> ofCase in replica.OfYard(yard, RecordKind.Observation).GroupBy(observation => observation.Reference("case")))
        {
            foreach (RecordState observation in ObservationOrder.ThatCount(ofCase))
            {
                ProblemList problems = new("");
                if (observation.Value("reading") is { } reading
                    && ObservationJson.Read(reading, "", null, problems) is Observation.LoopResistance loop)
                {
                    readings.Add(new(
                        observation.Id, loop.At ?? observation["reading"].Shown!.MadeAt,
                        loop.Ohms is { } ohms ? LoopReading.Judge(budget, ohms, loop.LeadOhms, loop.Meter) : null));
                }
            }
        }

        return [.. readings.OrderBy(reading => reading.At)];
    }

    /// <summary>The newest reading, as long as nothing was mended after it: what was read before a repair says nothing about the wire now.</summary>
    public static LoopReadingAt? Today(Replica replica, Guid yard, IReadOnlyList<LoopReadingAt> readings) =>
        LastReading.Of(replica, yard) is { } last && readings is [.., { } newest] && newest.At >= last.At ? newest : null;
}
