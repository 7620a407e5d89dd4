namespace Swardloop.Drawing;

/// <summary>Where the device in hand says it is.</summary>
/// <param name="LatitudeDegrees">WGS 84, north positive.</param>
/// <param name="LongitudeDegrees">East positive.</param>
/// <param name="AccuracyMetres">The place is within this of the truth, 95 times in 100 (m).</param>
/// <param name="Fault">Why it does not say so, in words for people; null when it does.</param>
public sealed record HerePosition(double LatitudeDegrees, double LongitudeDegrees, double AccuracyMetres, string? Fault = null);
