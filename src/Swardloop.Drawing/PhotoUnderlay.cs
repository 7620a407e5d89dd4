using System.Globalization;
using Swardloop.Core.Geometry;

namespace Swardloop.Drawing;

/// <summary>A photo or plan under the drawing, to be traced. It is not kept with the yard.</summary>
/// <param name="Address">Where the browser has it.</param>
/// <param name="Width">Its width (px of its own).</param>
/// <param name="Height">Its height (px of its own).</param>
/// <param name="West">Easting of its upper left corner (m).</param>
/// <param name="North">Northing of that corner (m).</param>
/// <param name="MetresPerPixel">Its scale (m per px of its own), above zero.</param>
/// <param name="TurnDegrees">How far it is turned clockwise about that corner.</param>
public sealed record PhotoUnderlay(string Address, double Width, double Height, double West, double North, double MetresPerPixel, double TurnDegrees = 0)
{
    /// <summary>A photo laid across a view.</summary>
    public static PhotoUnderlay Across(string address, double width, double height, PlanView view)
    {
        double metresPerPixel = Math.Min(view.Width / width, view.Height / height) / view.PixelsPerMetre;
        PlanPoint middle = view.Centre;
        return new(address, width, height, middle.EastMetres - (width / 2 * metresPerPixel), middle.NorthMetres + (height / 2 * metresPerPixel), metresPerPixel);
    }

    /// <summary>The photo at the scale at which two places touched on it lie as far apart as a tape measured; the first stays where it is.</summary>
    /// <param name="first">One place, where it lies now.</param>
    /// <param name="second">The other.</param>
    /// <param name="distanceMetres">What the tape says (m), above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is not above zero, or the places are one.</exception>
    public PhotoUnderlay Scaled(PlanPoint first, PlanPoint second, double distanceMetres)
    {
        double now = first.DistanceTo(second);
        if (!(distanceMetres > 0 && now > 0))
        {
            throw new ArgumentOutOfRangeException(nameof(distanceMetres), distanceMetres, "Needs two places and more than 0 m between them.");
        }

        double factor = distanceMetres / now;
        return this with
        {
            MetresPerPixel = MetresPerPixel * factor,
            West = first.EastMetres + ((West - first.EastMetres) * factor),
            North = first.NorthMetres + ((North - first.NorthMetres) * factor),
        };
    }

    /// <summary>From its own pixels to plan metres, as SVG writes it.</summary>
    internal string Transform => string.Create(CultureInfo.InvariantCulture, $"translate({West:R} {North:R}) rotate({-TurnDegrees:R}) scale({MetresPerPixel:R} {-MetresPerPixel:R})");
}
