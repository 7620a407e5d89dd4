using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>Another loop whose field adds to this one's.</summary>
/// <param name="Path">Where it runs.</param>
/// <param name="SameCoding">Whether its signal is taken for ours.</param>
/// <param name="Ohms">Its loop resistance (Ω).</param>
public sealed record NeighbourLoop(WirePath Path, bool SameCoding, double Ohms);
