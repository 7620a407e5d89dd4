namespace Swardloop.Drawing;

/// <summary>One part of a drawing.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Index">Which of its kind, from 0.</param>
public readonly record struct DrawnPart(DrawnKind Kind, int Index = 0)
{
    /// <summary>Whether it closes on itself.</summary>
    public bool IsRing => Kind is DrawnKind.Lawn or DrawnKind.Island;

    /// <summary>Fewest corners it can have.</summary>
    public int FewestCorners => IsRing ? 3 : Kind == DrawnKind.Joint ? 1 : 2;
}
