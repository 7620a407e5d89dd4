using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>A wire from a terminal of its own at the station to a joint on the loop; the mower follows it home.</summary>
/// <param name="Name">What people call it; no two in one yard alike.</param>
/// <param name="JoinsAtMetres">Where it joins the loop, along the loop from terminal A (m).</param>
/// <param name="Path">The laid path, from the station to that joint.</param>
/// <param name="Conductor">What it is made of; null: as the loop.</param>
public sealed record GuideWire(string Name, double JoinsAtMetres, WirePath Path, Conductor? Conductor = null)
{
    /// <summary>Known splices on it, in order of <see cref="Joint.AtMetres"/>, here metres from the station.</summary>
    public IReadOnlyList<Joint> Joints { get; init; } = [];

    /// <summary>Length from the station to the loop (m).</summary>
    public double LengthMetres => Path.LengthMetres;
}
