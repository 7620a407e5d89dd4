namespace Swardloop.Drawing;

/// <summary>One event of a pointer on a picture.</summary>
/// <param name="Stage">What it did.</param>
/// <param name="Id">Which pointer; fingers have different ones.</param>
/// <param name="X">Where (px from the left).</param>
/// <param name="Y">Where (px from the top).</param>
/// <param name="IsTouch">Whether it is a finger, which covers what it points at.</param>
/// <param name="Shift">Whether the shift key is held.</param>
public readonly record struct PointerTouch(PointerStage Stage, int Id, double X, double Y, bool IsTouch, bool Shift = false)
{
    /// <summary>How far a press may slip and still be a touch of one spot (px).</summary>
    public double SlipPixels => IsTouch ? 10 : 4;

    /// <summary>How near a thing must be to be meant (px): half of a target of 44 px for a finger.</summary>
    public double ReachPixels => IsTouch ? 22 : 12;
}
