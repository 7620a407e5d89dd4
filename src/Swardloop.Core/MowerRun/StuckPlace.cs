using Swardloop.Core.Geometry;

namespace Swardloop.Core.MowerRun;

/// <summary>Where runs ended before their time.</summary>
/// <param name="Place">The middle of where they stopped (m).</param>
/// <param name="Share">Share of all runs that ended there, 0 to 1.</param>
/// <param name="Reason">Why.</param>
public sealed record StuckPlace(PlanPoint Place, double Share, StuckReason Reason);
