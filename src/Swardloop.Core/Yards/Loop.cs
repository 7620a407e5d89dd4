using Swardloop.Core.Conductors;
using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>The wire from terminal A (s = 0) round the lawn to terminal B (s = L).</summary>
public sealed record Loop
{
    /// <summary>A place this near to a joint is that joint (m); contract of the yard file.</summary>
    public const double JointReachMetres = 0.3;

    /// <summary>The laid path, terminal A to terminal B.</summary>
    public required WirePath Path { get; init; }

    /// <summary>What the wire is made of.</summary>
    public required Conductor Conductor { get; init; }

    /// <summary>Whether it is known what the wire is made of. If not, <see cref="Conductor"/> is <see cref="UnknownConductor.StandIn"/>, and what is
    /// reckoned from it allows for all wires that <see cref="UnknownConductor"/> names. Default true.</summary>
    public bool ConductorIsKnown { get; init; } = true;

    /// <summary>How deep it lies (m). Default 0.05.</summary>
    public double DepthMetres { get; init; } = 0.05;

    /// <summary>How far the true length may differ from the drawn one (m, taken as two standard deviations). Default 2.</summary>
    public double LengthToleranceMetres { get; init; } = 2;

    /// <summary>How it is known where the wire lies. Default: drawn.</summary>
    public WireCourse Course { get; init; }

    /// <summary>Of a heard course: how far beside the path the wire may lie (m, taken as two standard deviations). Default 0.</summary>
    public double CourseToleranceMetres { get; init; }

    /// <summary>Known splices between the terminals, in order of <see cref="Joint.AtMetres"/>.</summary>
    public IReadOnlyList<Joint> Joints { get; init; } = [];

    /// <summary>Capacitance of the wire to the soil (F/m). Default 250 pF/m.</summary>
    public double CapacitanceFaradPerMetre { get; init; } = 250e-12;

    /// <summary>Length from terminal to terminal (m).</summary>
    public double LengthMetres => Path.LengthMetres;

    /// <summary>The joint within 0.3 m of a place, the nearest when there are several, or null. Terminals are not listed joints.</summary>
    public Joint? JointNear(double atMetres) =>
        Joints.Where(joint => Math.Abs(joint.AtMetres - atMetres) <= JointReachMetres)
            .MinBy(joint => Math.Abs(joint.AtMetres - atMetres));
}
