using System.Runtime.CompilerServices;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Server.OwnersPage;

/// <summary>What counts as the middle of a lawn: the place farthest from every wire, to a fortieth of the lawn's size. Computed once per yard.</summary>
internal static class MiddleOfLawn
{
    private const int Places = 40;

    private static readonly ConditionalWeakTable<Yard, StrongBox<PlanPoint>> Known = [];

    /// <summary>The place, in plan metres.</summary>
    public static PlanPoint Of(Yard yard) => Known.GetValue(yard, one => new(Find(one))).Value;

    private static PlanPoint Find(Yard yard)
    {
        (PlanPoint southWest, PlanPoint northEast) = yard.Lawn.Bounds;
        double width = northEast.EastMetres - southWest.EastMetres, height = northEast.NorthMetres - southWest.NorthMetres;
        IEnumerable<PlanPoint> places =
            from row in Enumerable.Range(0, Places)
            from column in Enumerable.Range(0, Places)
            let place = new PlanPoint(
                southWest.EastMetres + (width * (column + 0.5) / Places), southWest.NorthMetres + (height * (row + 0.5) / Places))
            where yard.Lawn.Contains(place)
            select place;
        // A lawn so narrow that no place of the raster falls on it still has a first corner.
        return places.DefaultIfEmpty(yard.Lawn.Rings[0][0]).MaxBy(place => yard.Loop.Path.NearestTo(place).DistanceMetres);
    }
}
