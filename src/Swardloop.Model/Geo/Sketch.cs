using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Geo;

/// <summary>What a drawing means in the yard.</summary>
public enum SketchRole
{
    /// <summary>The wire; a line, or a ring walked once round.</summary>
    Loop,

    /// <summary>Lawn: an outer ring, with holes.</summary>
    Lawn,

    /// <summary>Metal beside the wire.</summary>
    Metal,

    /// <summary>A neighbour's loop.</summary>
    Neighbour,

    /// <summary>A joint: a single place.</summary>
    Joint,

    /// <summary>A guide wire, from the station to a joint on the loop.</summary>
    Guide,
}

/// <summary>A corner as its file gives it: longitude and latitude in degrees, or metres east and north.</summary>
/// <param name="X">Longitude, or metres east.</param>
/// <param name="Y">Latitude, or metres north.</param>
public readonly record struct SketchPoint(double X, double Y);

/// <summary>One drawing of an imported file.</summary>
/// <param name="Role">What it means.</param>
/// <param name="Place">Where it stands in the file.</param>
/// <param name="Lines">Its line; for a lawn its outer ring and then its holes.</param>
public sealed record SketchShape(SketchRole Role, string Place, IReadOnlyList<SketchPoint[]> Lines)
{
    /// <summary>Name of a guide wire or, for a joint, of the guide wire it is in, when said.</summary>
    public string? Wire { get; init; }

    /// <summary>Where a guide wire joins the loop (m from A), when said.</summary>
    public double? JoinsAtMetres { get; init; }

    /// <summary>Kind of metal, when said.</summary>
    public string? Kind { get; init; }

    /// <summary>Earth resistance of metal or loop resistance of a neighbour (Ω), when said.</summary>
    public double? Ohms { get; init; }

    /// <summary>Whether a neighbour's signal is coded like ours, when said.</summary>
    public bool? SameCoding { get; init; }

    /// <summary>Metres along the wire of a joint, when said; along its guide wire from the station, where it is in one.</summary>
    public double? AtMetres { get; init; }

    /// <summary>Style of a joint, when said.</summary>
    public JointStyle? Style { get; init; }

    /// <summary>Conductor of the loop or of a guide wire, when said.</summary>
    public Conductor? Conductor { get; init; }

    /// <summary>How it is known where the loop lies.</summary>
    public WireCourse Course { get; init; }

    /// <summary>How far beside its path a loop may lie whose course was heard (m), when said.</summary>
    public double? CourseToleranceMetres { get; init; }

    /// <summary>How far the loop's true length may differ (m), when said.</summary>
    public double? LengthToleranceMetres { get; init; }

    /// <summary>Whether the file says that nobody knows the loop's conductor.</summary>
    public bool IsConductorUnknown { get; init; }
}

/// <summary>The drawings of an imported file, before they become a yard.</summary>
/// <param name="Shapes">All drawings, in the order of the file.</param>
/// <param name="IsGeographic">Whether corners are longitude and latitude (WGS 84) rather than metres.</param>
public sealed record Sketch(IReadOnlyList<SketchShape> Shapes, bool IsGeographic)
{
    /// <summary>Name found in the file.</summary>
    public string? Name { get; init; }

    /// <summary>Whether the file is Swardloop's own export, which comes back as it was.</summary>
    public bool IsOwn { get; init; }

    /// <summary>Where the plan shall lie, when the file says so.</summary>
    public Datum? Datum { get; init; }

    /// <summary>Whether it has the outline of one lawn and no wire, so that the outline may stand for both.</summary>
    public bool IsOutlineOnly =>
        Shapes.All(shape => shape.Role != SketchRole.Loop) && Shapes.Count(shape => shape.Role == SketchRole.Lawn) == 1
        && Shapes.First(shape => shape.Role == SketchRole.Lawn).Lines[0].Distinct().Count() >= 3;

    /// <summary>The same with a wire laid once round the outline of its lawn, from its first corner.</summary>
    public Sketch WithWireAlongOutline()
    {
        SketchShape lawn = Shapes.First(shape => shape.Role == SketchRole.Lawn);
        SketchPoint[] ring = lawn.Lines[0];
        return this with { Shapes = [.. Shapes, new(SketchRole.Loop, lawn.Place, [ring[0] == ring[^1] ? ring : [.. ring, ring[0]]])] };
    }
}
