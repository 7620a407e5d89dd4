using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;
using Swardloop.Model.Checks;

namespace Swardloop.Model.Yards;

/// <summary>The fixed words of the yard file.</summary>
public static class YardWords
{
    private static readonly JointStyle[] StylesInOrder =
        [JointStyle.Gel, JointStyle.Crimped, JointStyle.Soldered, JointStyle.Twisted, JointStyle.Clamp, JointStyle.Unknown];

    private static readonly ConductorMaterial[] MaterialsInOrder =
    [
        ConductorMaterial.Copper, ConductorMaterial.Aluminium, ConductorMaterial.CopperCladSteel, ConductorMaterial.CopperCladAluminium,
    ];

    /// <summary>Words of <c>loop.joints[].style</c>.</summary>
    public static IReadOnlyList<string> JointStyles { get; } = ["gel", "crimped", "soldered", "twisted", "clamp", "unknown"];

    /// <summary>Words of <c>loop.conductor.material</c>.</summary>
    public static IReadOnlyList<string> Materials { get; } = ["copper", "aluminium", "copper-clad-steel", "copper-clad-aluminium"];

    /// <summary>Words of <c>loop.course</c>, in the order of <see cref="WireCourse"/>.</summary>
    public static IReadOnlyList<string> Courses { get; } = ["drawn", "heard", "unknown"];

    /// <summary>The word of a wire's course.</summary>
    public static string Of(WireCourse course) => Courses[(int)course];

    /// <summary>The word of a joint's style.</summary>
    public static string Of(JointStyle style) => JointStyles[Array.IndexOf(StylesInOrder, style)];

    /// <summary>The word of a material.</summary>
    public static string Of(ConductorMaterial material) => Materials[Array.IndexOf(MaterialsInOrder, material)];

    /// <summary>A joint's style in a file; <see langword="null"/> when absent or wrong.</summary>
    internal static JointStyle? ReadJointStyle(JsonFields fields, string name) =>
        fields.Word(name, JointStyles) is int index ? StylesInOrder[index] : null;

    /// <summary>A wire's course in a file; drawn when absent or wrong.</summary>
    internal static WireCourse ReadCourse(JsonFields fields, string name) => fields.Word(name, Courses) is int index ? (WireCourse)index : WireCourse.Drawn;

    /// <summary>A material in a file; <see langword="null"/> when absent or wrong.</summary>
    internal static ConductorMaterial? ReadMaterial(JsonFields fields, string name) =>
        fields.Word(name, Materials) is int index ? MaterialsInOrder[index] : null;
}
