using SkiaSharp;
using Swardloop.Model.Pictures;

namespace Swardloop.Pictures;

/// <summary>Draws into a PNG image. The fonts come with the program, so every machine draws the same letters.</summary>
public sealed class PngPen : IPicturePen, IDisposable
{
    // Twice the picture's own units: sharp on today's screens and on paper.
    private const float Sharpness = 2;

    private readonly SKSurface _surface;
    private readonly CanvasPen _pen;

    /// <summary>Prepares an empty picture.</summary>
    /// <param name="width">Width in the picture's units, above zero.</param>
    /// <param name="height">Height in the picture's units, above zero.</param>
    public PngPen(double width, double height)
    {
        SKImageInfo size = new((int)Math.Ceiling(width * Sharpness), (int)Math.Ceiling(height * Sharpness));
        _surface = SKSurface.Create(size) ?? throw new InvalidOperationException($"No memory for a picture of {size.Width} × {size.Height}.");
        _surface.Canvas.Scale(Sharpness);
        _pen = new(_surface.Canvas);
    }

    /// <inheritdoc/>
    public void Fill(PicturePath area, string colour) => _pen.Fill(area, colour);

    /// <inheritdoc/>
    public void Hatch(PicturePath area, string colour) => _pen.Hatch(area, colour);

    /// <inheritdoc/>
    public void Stroke(PicturePath path, string colour, double width, params IReadOnlyList<double> dashes) => _pen.Stroke(path, colour, width, dashes);

    /// <inheritdoc/>
    public void Text(double x, double y, string text, double size, string colour, bool centred = false, bool bold = false) =>
        _pen.Text(x, y, text, size, colour, centred, bold);

    /// <inheritdoc/>
    public void Within(PicturePath area, Action draw) => _pen.Within(area, draw);

    /// <summary>The image, as the bytes of a PNG file.</summary>
    public byte[] ToPng()
    {
        using SKImage image = _surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <inheritdoc/>
    public void Dispose() => _surface.Dispose();
}
