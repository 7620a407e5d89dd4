namespace Swardloop.Core.Yards;

/// <summary>How it is known where a wire lies.</summary>
public enum WireCourse
{
    /// <summary>It was drawn, measured or walked: it lies where the path says.</summary>
    Drawn,

    /// <summary>Put together from places where a tone was heard: it lies about where the path says.</summary>
    Heard,

    /// <summary>Nobody knows: only its length is known, and the path is a stand-in of that length.</summary>
    Unknown,
}
