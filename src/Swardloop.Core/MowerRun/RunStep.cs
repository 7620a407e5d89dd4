using Swardloop.Core.Geometry;
using Swardloop.Core.Reach;

namespace Swardloop.Core.MowerRun;

/// <summary>One place at which the mower listened.</summary>
/// <param name="Place">Where its sensor was (m).</param>
/// <param name="Heard">What it heard there.</param>
/// <param name="EndsLeg">Whether it turned back there.</param>
public readonly record struct RunStep(PlanPoint Place, HeardSide Heard, bool EndsLeg);
