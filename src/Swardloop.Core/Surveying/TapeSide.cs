namespace Swardloop.Core.Surveying;

/// <summary>On which side of a line a point lies.</summary>
public enum TapeSide
{
    /// <summary>To the left of someone who walks along the line.</summary>
    Left,

    /// <summary>To the right.</summary>
    Right,
}
