using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>Metal as drawn.</summary>
/// <param name="Kind">What it is, in a word.</param>
/// <param name="Points">Where it runs.</param>
/// <param name="EarthOhms">Its own resistance to remote earth (Ω).</param>
public sealed record DrawnMetal(string Kind, IReadOnlyList<PlanPoint> Points, double EarthOhms);
