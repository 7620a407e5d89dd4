using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Client.Garden;

/// <summary>The place on the wire nearest to where a device says it is.</summary>
/// <param name="AtMetres">Along the wire from A (m).</param>
/// <param name="OffMetres">How far the device is from it (m).</param>
/// <param name="AccuracyMetres">How well the device knows where it is (m).</param>
public sealed record WireSpot(double AtMetres, double OffMetres, double AccuracyMetres)
{
    /// <summary>A position known worse than this (m) says nothing about a wire in a garden.</summary>
    public const double CoarseMetres = 10;

    /// <summary>Whether it is too coarse to choose a place by.</summary>
    public bool IsTooCoarse => !(AccuracyMetres <= CoarseMetres);

    /// <summary>Whether the device is farther from the wire than its own error explains: somebody stands at the wire, or the yard lies elsewhere.</summary>
    public bool IsOffTheWire => OffMetres > CoarseMetres + AccuracyMetres;

    /// <summary>The spot; null when the yard has no origin on the earth.</summary>
    public static WireSpot? Of(Yard yard, double latitudeDegrees, double longitudeDegrees, double accuracyMetres)
    {
        if (yard.Datum is not { } datum)
        {
            return null;
        }

        PlanPoint here = datum.ToPlane().ToPlan(latitudeDegrees, longitudeDegrees);
        (double at, double off) = yard.Loop.Path.NearestTo(here);
        return new(at, off, accuracyMetres);
    }
}
