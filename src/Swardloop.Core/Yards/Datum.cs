using Swardloop.Core.Geometry;

namespace Swardloop.Core.Yards;

/// <summary>Where the plan's origin lies on the earth, WGS 84.</summary>
/// <param name="LatitudeDegrees">Latitude, north positive.</param>
/// <param name="LongitudeDegrees">Longitude, east positive.</param>
/// <param name="BearingDegrees">True bearing of the plan's north axis, clockwise from north.</param>
public sealed record Datum(double LatitudeDegrees, double LongitudeDegrees, double BearingDegrees = 0)
{
    /// <summary>The plan laid on the earth there.</summary>
    public LocalPlane ToPlane() => new(LatitudeDegrees, LongitudeDegrees, BearingDegrees);
}
