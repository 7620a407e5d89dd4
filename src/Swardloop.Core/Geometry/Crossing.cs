namespace Swardloop.Core.Geometry;

/// <summary>A place where two lines, or one line with itself, cross.</summary>
/// <param name="At">The place.</param>
/// <param name="FirstCorner">Index of the corner where the one piece starts.</param>
/// <param name="SecondCorner">Index of the corner where the other piece starts.</param>
public sealed record Crossing(PlanPoint At, int FirstCorner, int SecondCorner);
