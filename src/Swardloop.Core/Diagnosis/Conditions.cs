namespace Swardloop.Core.Diagnosis;

/// <summary>What was particular when an observation was made; none of them when nothing was noted.</summary>
[Flags]
public enum Conditions
{
    /// <summary>Nothing noted.</summary>
    None = 0,

    /// <summary>The ground was wet.</summary>
    Wet = 1,

    /// <summary>The ground was dry.</summary>
    Dry = 2,

    /// <summary>There was frost in the ground.</summary>
    Frost = 4,

    /// <summary>The wire, a joint or a plug was moved just before.</summary>
    Moved = 8,
}
