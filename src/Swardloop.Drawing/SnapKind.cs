namespace Swardloop.Drawing;

/// <summary>What a place was drawn to.</summary>
public enum SnapKind
{
    /// <summary>Nothing: it lies where the hand put it, to a centimetre.</summary>
    None,

    /// <summary>A corner or end that is there.</summary>
    End,

    /// <summary>A right angle, or a line due north or east, through a neighbouring corner.</summary>
    RightAngle,

    /// <summary>The grid.</summary>
    Grid,
}
