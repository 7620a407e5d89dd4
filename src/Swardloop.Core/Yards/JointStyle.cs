namespace Swardloop.Core.Yards;

/// <summary>How a splice was made.</summary>
public enum JointStyle
{
    /// <summary>Nobody knows.</summary>
    Unknown,

    /// <summary>Gel-filled connector.</summary>
    Gel,

    /// <summary>Crimped sleeve.</summary>
    Crimped,

    /// <summary>Soldered and sleeved.</summary>
    Soldered,

    /// <summary>Twisted together, taped.</summary>
    Twisted,

    /// <summary>Screw or spring clamp.</summary>
    Clamp,
}
