using Swardloop.Core.Diagnosis;
using Swardloop.Core.Forecasting;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Forecasting;

/// <summary>A case's loop readings as the forecast takes them, and which observations begin another state of the loop.</summary>
public static class LoopRecords
{
    /// <summary>A loop reading.</summary>
    /// <param name="seen">What was seen.</param>
    /// <param name="madeAt">When it was written down, for a reading that does not say when it was taken.</param>
    /// <returns>Null for a loop that showed over-range: it has no resistance to be compared.</returns>
    public static LoopRecord? Of(Observation.LoopResistance seen, DateTimeOffset? madeAt = null) => seen.Ohms is not { } shown ? null
        : new(DateOnly.FromDateTime((seen.At ?? madeAt ?? DateTimeOffset.UnixEpoch).DateTime), shown)
        {
            LeadOhms = seen.LeadOhms,
            Meter = seen.Meter,
            Wet = seen.Conditions.HasFlag(Conditions.Wet),
            Dry = seen.Conditions.HasFlag(Conditions.Dry),
            Frost = seen.Conditions.HasFlag(Conditions.Frost),
            Moved = seen.Conditions.HasFlag(Conditions.Moved),
        };

    /// <summary>The same at the yard's filed temperature where the reading does not say when it was taken: as the acceptance is printed, so it is judged.</summary>
    public static LoopRecord AsFiled(Yard yard, Observation.LoopResistance seen, LoopRecord record) =>
        seen.At is null ? record with { TemperatureCelsius = yard.Soil.TemperatureCelsius } : record;

    /// <summary>Whether the loop's resistance afterwards is that of other wire or other contacts. A new supply or station is no other loop.</summary>
    /// <param name="seen">What was done.</param>
    /// <param name="loop">The loop it was done to.</param>
    public static bool BeginsAnew(Observation seen, Loop loop) => seen switch
    {
        Observation.RepairDone { Repair: StepKind.RemakeJoint or StepKind.RemakeTerminals or StepKind.MendSpan or StepKind.RenewLoop or StepKind.RelayLayout } => true,
        Observation.RepairDone => false,
        _ => CaseHistory.ChangesWire(seen, loop),
    };
}
