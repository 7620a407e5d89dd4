using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>A guide wire as drawn.</summary>
/// <param name="Name">What people call it.</param>
/// <param name="Points">Where it runs, from the station to the loop.</param>
/// <param name="JoinsAtMetres">Where it joins the loop, along the loop from A (m).</param>
/// <param name="Conductor">What it is made of; null: as the loop.</param>
/// <param name="Joints">Joints in it, in order of metres from the station.</param>
public sealed record DrawnGuide(string Name, IReadOnlyList<PlanPoint> Points, double JoinsAtMetres, Conductor? Conductor, IReadOnlyList<Joint> Joints);
