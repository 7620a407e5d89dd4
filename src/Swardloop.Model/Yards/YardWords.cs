using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Model.Yards;

/// <summary>The fixed words of the yard file.</summary>
public static class YardWords
{
    /// <summary>Words of <c>loop.joints[].style</c>.</summary>
    public static IReadOnlyList<KeyValuePair<string, JointStyle>> JointStyles { get; } =
    [
        new("gel", JointStyle.Gel),
        new("crimped", JointStyle.Crimped),
        new("soldered", JointStyle.Soldered),
        new("twisted", JointStyle.Twisted),
        new("clamp", JointStyle.Clamp),
        new("unknown", JointStyle.Unknown),
    ];

    /// <summary>Words of <c>loop.conductor.material</c>.</summary>
    public static IReadOnlyList<KeyValuePair<string, ConductorMaterial>> Materials { get; } =
    [
        new("copper", ConductorMaterial.Copper),
        new("aluminium", ConductorMaterial.Aluminium),
        new("copper-clad-steel", ConductorMaterial.CopperCladSteel),
        new("copper-clad-aluminium", ConductorMaterial.CopperCladAluminium),
    ];

    /// <summary>The word of a joint's style.</summary>
    public static string Of(JointStyle style) => JointStyles.First(word => word.Value == style).Key;

    /// <summary>The word of a material.</summary>
    public static string Of(ConductorMaterial material) => Materials.First(word => word.Value == material).Key;
}
