using Swardloop.Core.Budget;

namespace Swardloop.Client.Yards;

/// <summary>One loop reading of a yard's history, leads taken off.</summary>
/// <param name="Observation">Its record.</param>
/// <param name="At">When it was made.</param>
/// <param name="Judged">The reading judged against the loop's budget; null when the meter showed over-range.</param>
public sealed record LoopReadingAt(Guid Observation, DateTimeOffset At, LoopReading? Judged);
