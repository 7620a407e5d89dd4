using Swardloop.Core.Geometry;

namespace Swardloop.Model.Yards;

/// <summary>A place over which a tone on the wire was loudest.</summary>
/// <param name="At">Where, in the plan (m).</param>
/// <param name="AccuracyMetres">The wire lies within this of it, 19 times in 20 (m).</param>
public readonly record struct HeardPlace(PlanPoint At, double AccuracyMetres)
{
    /// <summary>A place touched on a scaled photo or plan: the ear's some 20 cm and the finger's (m). Common practice, no source.</summary>
    public const double TouchedMetres = 0.6;

    /// <summary>What the ear adds to a position that a device gives (m). Common practice, no source.</summary>
    public const double EarMetres = 0.3;

    /// <summary>A place where a device said that it was.</summary>
    /// <param name="at">Where (m).</param>
    /// <param name="deviceMetres">The device is within this of it, 19 times in 20 (m).</param>
    public static HeardPlace ByPosition(PlanPoint at, double deviceMetres) => new(at, Math.Sqrt((deviceMetres * deviceMetres) + (EarMetres * EarMetres)));
}
