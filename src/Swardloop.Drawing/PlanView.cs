using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>Which part of the plan a picture shows, and how large; north up. Immutable.</summary>
/// <param name="Width">Width of the picture (px).</param>
/// <param name="Height">Height of the picture (px).</param>
/// <param name="WestMetres">Easting of the left edge (m).</param>
/// <param name="NorthMetres">Northing of the upper edge (m).</param>
/// <param name="PixelsPerMetre">Scale (px/m), above zero.</param>
public sealed record PlanView(double Width, double Height, double WestMetres, double NorthMetres, double PixelsPerMetre)
{
    /// <summary>Largest scale (px/m): a centimetre of wire is two finger widths.</summary>
    public const double MostPixelsPerMetre = 4000;

    /// <summary>Smallest scale (px/m).</summary>
    public const double LeastPixelsPerMetre = 0.02;

    /// <summary>The view that shows a box whole, in the middle.</summary>
    /// <param name="southWest">South-west corner of the box.</param>
    /// <param name="northEast">North-east corner; a box without size is shown 10 m wide.</param>
    /// <param name="width">Width of the picture (px), above zero.</param>
    /// <param name="height">Height of the picture (px), above zero.</param>
    /// <param name="borderPixels">Room left free on each side (px).</param>
    public static PlanView Fit(PlanPoint southWest, PlanPoint northEast, double width, double height, double borderPixels = 28)
    {
        double east = northEast.EastMetres - southWest.EastMetres, north = northEast.NorthMetres - southWest.NorthMetres;
        if (!(Math.Max(east, north) > 1e-3))
        {
            (east, north) = (10, 10);
        }

        double scale = Math.Clamp(
            Math.Min(Math.Max(width - (2 * borderPixels), width / 4) / east, Math.Max(height - (2 * borderPixels), height / 4) / north),
            LeastPixelsPerMetre, MostPixelsPerMetre);
        return Centred(southWest.Towards(northEast, 0.5), width, height, scale);
    }

    /// <summary>The picture's middle.</summary>
    public PlanPoint Centre => ToPlan(Width / 2, Height / 2);

    /// <summary>Where a place of the plan lies in the picture (px from the upper left).</summary>
    public (double X, double Y) ToScreen(PlanPoint point) =>
        ((point.EastMetres - WestMetres) * PixelsPerMetre, (NorthMetres - point.NorthMetres) * PixelsPerMetre);

    /// <summary>Which place of the plan lies at a spot of the picture (px from the upper left).</summary>
    public PlanPoint ToPlan(double x, double y) => new(WestMetres + (x / PixelsPerMetre), NorthMetres - (y / PixelsPerMetre));

    /// <summary>The view after the paper was pushed (px).</summary>
    public PlanView Panned(double right, double down) =>
        this with { WestMetres = WestMetres - (right / PixelsPerMetre), NorthMetres = NorthMetres + (down / PixelsPerMetre) };

    /// <summary>The view at another scale, one spot (px) staying where it is.</summary>
    public PlanView Zoomed(double factor, double x, double y)
    {
        double scale = Math.Clamp(PixelsPerMetre * factor, LeastPixelsPerMetre, MostPixelsPerMetre);
        PlanPoint fixedPoint = ToPlan(x, y);
        return this with
        {
            PixelsPerMetre = scale,
            WestMetres = fixedPoint.EastMetres - (x / scale),
            NorthMetres = fixedPoint.NorthMetres + (y / scale),
        };
    }

    /// <summary>The view in a picture of another size: the middle and the scale stay.</summary>
    public PlanView Resized(double width, double height) => Centred(Centre, width, height, PixelsPerMetre);

    /// <summary>The longest round length that fits into a width.</summary>
    /// <param name="mostPixels">The width (px), above zero.</param>
    /// <param name="unitMetres">The unit in which it is to be round (m).</param>
    /// <returns>1, 2 or 5 times a power of ten of that unit (m), and as drawn (px).</returns>
    public (double Metres, double Pixels) ScaleBar(double mostPixels, double unitMetres = 1)
    {
        double most = mostPixels / PixelsPerMetre / unitMetres, power = Math.Pow(10, Math.Floor(Math.Log10(most)));
        double metres = unitMetres * (most >= 5 * power ? 5 * power : most >= 2 * power ? 2 * power : power);
        return (metres, metres * PixelsPerMetre);
    }

    private static PlanView Centred(PlanPoint middle, double width, double height, double scale) =>
        new(width, height, middle.EastMetres - (width / 2 / scale), middle.NorthMetres + (height / 2 / scale), scale);
}
