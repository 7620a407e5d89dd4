namespace Swardloop.Model.Pictures;

/// <summary>Lines and areas in picture units, x to the right and y down; areas by the even–odd rule.</summary>
/// <param name="Strands">Each a run of points.</param>
/// <param name="Closed">Whether each strand closes on itself.</param>
public sealed record PicturePath(IReadOnlyList<IReadOnlyList<(double X, double Y)>> Strands, bool Closed)
{
    /// <summary>A rectangle.</summary>
    public static PicturePath Rectangle(double x, double y, double width, double height) =>
        new([[(x, y), (x + width, y), (x + width, y + height), (x, y + height)]], true);

    /// <summary>One straight line.</summary>
    public static PicturePath Line(double x1, double y1, double x2, double y2) => new([[(x1, y1), (x2, y2)]], false);

    /// <summary>A circle, as a polygon fine enough to look round.</summary>
    public static PicturePath Circle(double x, double y, double radius) =>
        new([[.. Enumerable.Range(0, 32).Select(i => i * Math.PI / 16).Select(angle => (x + (radius * Math.Cos(angle)), y + (radius * Math.Sin(angle))))]], true);
}
