using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>Draws a place to ends, right angles and the grid.</summary>
/// <param name="ReachMetres">How near a thing must be (m); zero turns snapping off.</param>
/// <param name="GridMetres">Spacing of the grid (m), above zero.</param>
public readonly record struct Snapping(double ReachMetres, double GridMetres)
{
    /// <summary>What suits a view: a reach of so many pixels, a grid of about 8 pixels and never finer than a hundredth of the unit of lengths.</summary>
    /// <param name="view">The view.</param>
    /// <param name="reachPixels">How near a thing must be (px).</param>
    /// <param name="on">Whether anything snaps at all.</param>
    /// <param name="unitMetres">The unit in which the grid is to be round (m).</param>
    public static Snapping For(PlanView view, double reachPixels, bool on, double unitMetres = 1) =>
        new(on ? reachPixels / view.PixelsPerMetre : 0, Math.Clamp(view.ScaleBar(10, unitMetres).Metres, 0.01 * unitMetres, unitMetres));

    /// <summary>Draws a place to the nearest end or, failing that, to right angles at the corners beside it or, failing that, to the grid.</summary>
    /// <param name="raw">Where the hand is.</param>
    /// <param name="ends">Corners and ends to meet.</param>
    /// <param name="beside">The corners before and after it, each with the corner beyond, which gives the direction of its leg.</param>
    public SnappedPoint Of(PlanPoint raw, IEnumerable<PlanPoint> ends, IReadOnlyList<(PlanPoint Corner, PlanPoint? Beyond)> beside)
    {
        if (!(ReachMetres > 0))
        {
            return new(Centimetres(raw), SnapKind.None);
        }

        double reach = ReachMetres;
        PlanPoint[] near = [.. ends.Where(end => end.DistanceTo(raw) <= reach).OrderBy(end => end.DistanceTo(raw))];
        if (near.Length > 0)
        {
            return new(near[0], SnapKind.End);
        }

        // Lines through the neighbouring corners: due east and north, and square to or straight on from the leg beyond.
        List<(PlanPoint Through, double East, double North)> lines = [];
        foreach ((PlanPoint corner, PlanPoint? beyond) in beside)
        {
            lines.Add((corner, 1, 0));
            lines.Add((corner, 0, 1));
            if (beyond is { } far && far.DistanceTo(corner) is var length && length > 1e-9)
            {
                (double east, double north) = ((corner.EastMetres - far.EastMetres) / length, (corner.NorthMetres - far.NorthMetres) / length);
                if (Math.Min(Math.Abs(east), Math.Abs(north)) > 1e-6)
                {
                    lines.Add((corner, east, north));
                    lines.Add((corner, -north, east));
                }
            }
        }

        (PlanPoint Through, double East, double North)[] close =
            [.. lines.Where(line => OffLine(line, raw) <= reach).OrderBy(line => OffLine(line, raw))];
        if (close.Length == 0)
        {
            return new(new(Math.Round(raw.EastMetres / GridMetres) * GridMetres, Math.Round(raw.NorthMetres / GridMetres) * GridMetres), SnapKind.Grid);
        }

        foreach ((PlanPoint Through, double East, double North) other in close.Skip(1).Where(line => line.Through != close[0].Through))
        {
            if (Meeting(close[0], other) is { } meeting && meeting.DistanceTo(raw) <= 1.5 * reach)
            {
                return new(Centimetres(meeting), SnapKind.RightAngle);
            }
        }

        (PlanPoint through, double alongEast, double alongNorth) = close[0];
        double along = ((raw.EastMetres - through.EastMetres) * alongEast) + ((raw.NorthMetres - through.NorthMetres) * alongNorth);
        along = Math.Round(along / GridMetres) * GridMetres;
        return new(Centimetres(new(through.EastMetres + (along * alongEast), through.NorthMetres + (along * alongNorth))), SnapKind.RightAngle);
    }

    private static double OffLine((PlanPoint Through, double East, double North) line, PlanPoint point) =>
        Math.Abs(((point.EastMetres - line.Through.EastMetres) * line.North) - ((point.NorthMetres - line.Through.NorthMetres) * line.East));

    private static PlanPoint? Meeting((PlanPoint Through, double East, double North) a, (PlanPoint Through, double East, double North) b)
    {
        double cross = (a.East * b.North) - (a.North * b.East);
        if (Math.Abs(cross) < 0.1)
        {
            return null;
        }

        double along = (((b.Through.EastMetres - a.Through.EastMetres) * b.North) - ((b.Through.NorthMetres - a.Through.NorthMetres) * b.East)) / cross;
        return new(a.Through.EastMetres + (along * a.East), a.Through.NorthMetres + (along * a.North));
    }

    /// <summary>A place as drawings keep it: to the centimetre, without minus nothing.</summary>
    internal static PlanPoint Centimetres(PlanPoint point) => new(Math.Round(point.EastMetres, 2) + 0.0, Math.Round(point.NorthMetres, 2) + 0.0);
}
