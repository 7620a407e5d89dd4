using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>Metal beside the wire: fence, shed, edging.</summary>
/// <param name="Kind">What it is, in a word.</param>
/// <param name="Path">Where it runs.</param>
/// <param name="EarthOhms">Its own resistance to remote earth (Ω).</param>
public sealed record MetalObject(string Kind, WirePath Path, double EarthOhms);
