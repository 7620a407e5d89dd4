using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Drawing;

/// <summary>How far a yard reaches on its plan.</summary>
public static class PlanExtent
{
    /// <summary>South-west and north-east corners of the box round lawn, wire and metal, and round what of neighbours' loops lies within a
    /// lawn's half width of them.</summary>
    public static (PlanPoint SouthWest, PlanPoint NorthEast) Of(Yard yard)
    {
        (PlanPoint southWest, PlanPoint northEast) = Of(yard.Lawn.Rings.SelectMany(ring => ring).Concat(yard.Loop.Path.Points).Concat(yard.Guides.SelectMany(guide => guide.Path.Points)).Concat(yard.Metal.SelectMany(metal => metal.Path.Points)));
        double near = 0.25 * Math.Max(northEast.EastMetres - southWest.EastMetres, northEast.NorthMetres - southWest.NorthMetres);
        return Of(yard.Neighbours.SelectMany(neighbour => neighbour.Path.Points)
            .Where(point => point.EastMetres > southWest.EastMetres - near && point.EastMetres < northEast.EastMetres + near
                && point.NorthMetres > southWest.NorthMetres - near && point.NorthMetres < northEast.NorthMetres + near)
            .Append(southWest).Append(northEast));
    }

    /// <summary>The box round some places.</summary>
    /// <param name="points">At least one.</param>
    public static (PlanPoint SouthWest, PlanPoint NorthEast) Of(IEnumerable<PlanPoint> points)
    {
        double west = double.PositiveInfinity, south = west, east = double.NegativeInfinity, north = east;
        foreach (PlanPoint point in points)
        {
            (west, east) = (Math.Min(west, point.EastMetres), Math.Max(east, point.EastMetres));
            (south, north) = (Math.Min(south, point.NorthMetres), Math.Max(north, point.NorthMetres));
        }

        return (new(west, south), new(east, north));
    }
}
