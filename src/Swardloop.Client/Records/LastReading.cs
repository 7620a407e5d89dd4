using System.Text.Json;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Cases;
using Swardloop.Model.Checks;
using Swardloop.Workshop.Records;
using Swardloop.Workshop.Sync;

namespace Swardloop.Client.Records;

/// <summary>The newest reading of a yard's loop.</summary>
/// <param name="At">When.</param>
/// <param name="Ohms">What it read, leads taken off (Ω); null for over-range.</param>
public sealed record LastReading(DateTimeOffset At, double? Ohms)
{
    /// <summary>Of a yard; null when its loop was never measured, or not since it was repaired: what was read before a repair says nothing about the wire now.</summary>
    public static LastReading? Of(Replica replica, Guid yard)
    {
        LastReading? last = null;
        DateTimeOffset repairedAt = DateTimeOffset.MinValue;
        foreach (IGrouping<Guid?, RecordState> ofCase in replica.OfYard(yard, RecordKind.Observation).GroupBy(observation => observation.Reference("case")))
        {
            LastReading? ofThis = null;
            foreach (RecordState observation in ObservationOrder.ThatCount(ofCase))
            {
                if (observation["reading"].Shown is not { } shown || shown.Value.ValueKind != JsonValueKind.Object)
                {
                    continue;
                }

                ProblemList problems = new("");
                if (shown.Value.TryGetProperty("repair", out _))
                {
                    DateTimeOffset repaired = shown.Value.TryGetProperty("at", out JsonElement at) && at.TryGetDateTimeOffset(out DateTimeOffset said) ? said : shown.MadeAt;
                    (ofThis, repairedAt) = (null, repaired > repairedAt ? repaired : repairedAt);
                }
                else if (shown.Value.TryGetProperty("test", out JsonElement test) && test.ValueEquals("loop-resistance")
                    && ObservationJson.Read(shown.Value, "", null, problems) is Observation.LoopResistance loop)
                {
                    ofThis = new(loop.At ?? shown.MadeAt, loop.Ohms is { } ohms ? Math.Max(0, ohms - loop.LeadOhms) : null);
                }
            }

            last = ofThis is not null && (last is null || ofThis.At > last.At) ? ofThis : last;
        }

        return last is not null && last.At >= repairedAt ? last : null;
    }
}
