using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>A place after snapping.</summary>
/// <param name="Point">The place.</param>
/// <param name="Kind">What it was drawn to.</param>
public readonly record struct SnappedPoint(PlanPoint Point, SnapKind Kind);
