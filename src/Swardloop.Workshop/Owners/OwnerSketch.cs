using System.Globalization;
using System.Text;
using Swardloop.Core.Geometry;
using Swardloop.Core.Yards;

namespace Swardloop.Workshop.Owners;

/// <summary>A small plan of an owner's lawn as SVG, north up: grass, wire, station, and the one place that a question is about. A few
/// kilobytes; colours come from the page's stylesheet by class.</summary>
public static class OwnerSketch
{
    private const double WidthPixels = 340;
    private const double TallestPixels = 360;
    private const double MarginPixels = 14;

    /// <summary>Points beyond this many are thinned out: the plan is a thumb wide.</summary>
    private const int MostPoints = 400;

    /// <summary>Draws it.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="title">What the drawing shows, for those who cannot see it.</param>
    /// <param name="stationName">What the station is called on the drawing.</param>
    /// <param name="middle">A cross here; null for none.</param>
    /// <param name="stretches">The wire is drawn thick from here to there (m from A); where there are several they are numbered from 1.</param>
    public static string Svg(
        Yard yard, string title, string stationName, PlanPoint? middle = null, IReadOnlyList<(double FromMetres, double ToMetres)>? stretches = null)
    {
        double turn = (yard.Datum?.BearingDegrees ?? 0) * Math.PI / 180;
        List<PlanPoint> all = [.. yard.Loop.Path.Points.Select(Turned), .. yard.Lawn.Rings.Concat(yard.Lawn.Holes).SelectMany(ring => ring).Select(Turned)];
        double west = all.Min(point => point.EastMetres), east = all.Max(point => point.EastMetres);
        double south = all.Min(point => point.NorthMetres), north = all.Max(point => point.NorthMetres);
        double scale = Math.Min((WidthPixels - (2 * MarginPixels)) / Math.Max(east - west, 0.1), (TallestPixels - (2 * MarginPixels)) / Math.Max(north - south, 0.1));
        double width = ((east - west) * scale) + (2 * MarginPixels), height = ((north - south) * scale) + (2 * MarginPixels);

        StringBuilder svg = new();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"plan\" role=\"img\" viewBox=\"0 0 {width:0.#} {height:0.#}\" xmlns=\"http://www.w3.org/2000/svg\"><title>{System.Net.WebUtility.HtmlEncode(title)}</title>");
        svg.Append("<path class=\"grass\" fill-rule=\"evenodd\" d=\"");
        foreach (IReadOnlyList<PlanPoint> ring in yard.Lawn.Rings.Concat(yard.Lawn.Holes))
        {
            Polyline(ring.Select(Turned), close: true);
        }

        svg.Append("\"/><path class=\"wire\" d=\"");
        Polyline(yard.Loop.Path.Points.Select(Turned), close: false);
        svg.Append("\"/>");
        int number = 0;
        foreach ((double from, double to) in stretches ?? [])
        {
            svg.Append("<path class=\"place\" d=\"");
            Polyline(Along(yard.Loop.Path, from, to).Select(Turned), close: false);
            svg.Append("\"/>");
            if (stretches!.Count > 1)
            {
                // Beside the wire, towards the middle of the plan, where there is room.
                (double px, double py) = Pixels(Turned(yard.Loop.Path.PointAt((from + to) / 2)));
                double across = (width / 2) - px, up = (height / 2) - py, far = Math.Max(1, Math.Sqrt((across * across) + (up * up)));
                svg.Append(CultureInfo.InvariantCulture, $"<text class=\"piece\" x=\"{px + (14 * across / far):0.#}\" y=\"{py + (14 * up / far) + 4:0.#}\" text-anchor=\"middle\">{++number}</text>");
            }
        }

        (double x, double y) = Pixels(Turned(yard.Loop.Path.Points[0]));
        bool isLeft = x < width / 2;
        svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"station\" x=\"{x - 6:0.#}\" y=\"{y - 6:0.#}\" width=\"12\" height=\"12\"/>");
        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{(isLeft ? x + 10 : x - 10):0.#}\" y=\"{Math.Clamp(y + 4, 12, height - 4):0.#}\" text-anchor=\"{(isLeft ? "start" : "end")}\">{System.Net.WebUtility.HtmlEncode(stationName)}</text>");
        svg.Append(CultureInfo.InvariantCulture, $"<g class=\"north\" transform=\"translate({width - 12:0.#} 18)\"><path d=\"M0 -14l5 16l-5 -4l-5 4z\"/><text y=\"14\" text-anchor=\"middle\">N</text></g>");
        if (middle is { } cross)
        {
            (x, y) = Pixels(Turned(cross));
            svg.Append(CultureInfo.InvariantCulture, $"<path class=\"cross\" d=\"M{x - 9:0.#} {y - 9:0.#}l18 18m0 -18l-18 18\"/>");
        }

        return svg.Append("</svg>").ToString();

        PlanPoint Turned(PlanPoint point) => new(
            (point.EastMetres * Math.Cos(turn)) + (point.NorthMetres * Math.Sin(turn)),
            (point.NorthMetres * Math.Cos(turn)) - (point.EastMetres * Math.Sin(turn)));

        (double X, double Y) Pixels(PlanPoint point) =>
            (MarginPixels + ((point.EastMetres - west) * scale), MarginPixels + ((north - point.NorthMetres) * scale));

        void Polyline(IEnumerable<PlanPoint> points, bool close)
        {
            List<PlanPoint> list = [.. points];
            int step = 1 + (list.Count / MostPoints);
            for (int i = 0; i < list.Count; i++)
            {
                if (i % step == 0 || i == list.Count - 1)
                {
                    (double px, double py) = Pixels(list[i]);
                    svg.Append(i == 0 ? 'M' : 'L').Append(CultureInfo.InvariantCulture, $"{px:0.#} {py:0.#}");
                }
            }

            svg.Append(close ? "Z" : "");
        }
    }

    /// <summary>The wire's points between two places, the places themselves included.</summary>
    private static IEnumerable<PlanPoint> Along(WirePath path, double fromMetres, double toMetres)
    {
        double from = Math.Clamp(Math.Min(fromMetres, toMetres), 0, path.LengthMetres);
        double to = Math.Clamp(Math.Max(fromMetres, toMetres), 0, path.LengthMetres);
        yield return path.PointAt(from);
        for (int i = 0; i < path.Points.Count; i++)
        {
            if (path.CornerMetres[i] > from && path.CornerMetres[i] < to)
            {
                yield return path.Points[i];
            }
        }

        yield return path.PointAt(to);
    }
}
