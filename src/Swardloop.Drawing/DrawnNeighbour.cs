using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>A neighbour's loop as drawn.</summary>
/// <param name="Points">Where it runs.</param>
/// <param name="SameCoding">Whether its signal is taken for ours.</param>
/// <param name="Ohms">Its loop resistance (Ω).</param>
public sealed record DrawnNeighbour(IReadOnlyList<PlanPoint> Points, bool SameCoding, double Ohms);
