using System.Globalization;
using System.Text;
using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>Numbers and paths as SVG writes them.</summary>
internal static class SvgText
{
    /// <summary>A number with at most three decimals, a point for the decimals.</summary>
    public static string Of(double value) => (Math.Round(value, 3) + 0.0).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A line through places of the plan, in metres as they are.</summary>
    public static string Path(IEnumerable<PlanPoint> points, bool closed = false)
    {
        StringBuilder text = new();
        foreach (PlanPoint point in points)
        {
            text.Append(text.Length == 0 ? 'M' : 'L').Append(Of(point.EastMetres)).Append(' ').Append(Of(point.NorthMetres));
        }

        return (closed && text.Length > 0 ? text.Append('Z') : text).ToString();
    }

    /// <summary>Rings, one after the other.</summary>
    public static string Rings(IEnumerable<IReadOnlyList<PlanPoint>> rings) => string.Concat(rings.Select(ring => Path(ring, closed: true)));

    /// <summary>The transform from plan metres to a view's pixels.</summary>
    public static string Transform(PlanView view) =>
        string.Create(CultureInfo.InvariantCulture, $"matrix({view.PixelsPerMetre:R} 0 0 {-view.PixelsPerMetre:R} {-view.WestMetres * view.PixelsPerMetre:R} {view.NorthMetres * view.PixelsPerMetre:R})");
}
