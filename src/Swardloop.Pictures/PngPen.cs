using SkiaSharp;
using Swardloop.Model.Pictures;

namespace Swardloop.Pictures;

/// <summary>Draws into a PNG image. The fonts come with the program, so every machine draws the same letters.</summary>
public sealed class PngPen : IPicturePen, IDisposable
{
    // Twice the picture's own units: sharp on today's screens and on paper.
    private const float Sharpness = 2;

    private static readonly SKTypeface Plain = Font("DejaVuSans.ttf"), Bold = Font("DejaVuSans-Bold.ttf");

    private readonly SKSurface _surface;

    /// <summary>Prepares an empty picture.</summary>
    /// <param name="width">Width in the picture's units, above zero.</param>
    /// <param name="height">Height in the picture's units, above zero.</param>
    public PngPen(double width, double height)
    {
        SKImageInfo size = new((int)Math.Ceiling(width * Sharpness), (int)Math.Ceiling(height * Sharpness));
        _surface = SKSurface.Create(size) ?? throw new InvalidOperationException($"No memory for a picture of {size.Width} × {size.Height}.");
        _surface.Canvas.Scale(Sharpness);
    }

    /// <inheritdoc/>
    public void Fill(PicturePath area, string colour)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true };
        using SKPath path = Path(area);
        _surface.Canvas.DrawPath(path, paint);
    }

    /// <inheritdoc/>
    public void Hatch(PicturePath area, string colour)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true, IsStroke = true, StrokeWidth = 1.6f };
        using SKPath path = Path(area);
        SKCanvas canvas = _surface.Canvas;
        canvas.Save();
        canvas.ClipPath(path, SKClipOperation.Intersect, antialias: true);
        SKRect box = path.Bounds;
        float step = 7 * MathF.Sqrt(2);
        for (float x = MathF.Floor((box.Left - box.Bottom) / step) * step; x < box.Right - box.Top; x += step)
        {
            canvas.DrawLine(x + box.Top, box.Top, x + box.Bottom, box.Bottom, paint);
        }

        canvas.Restore();
    }

    /// <inheritdoc/>
    public void Stroke(PicturePath path, string colour, double width, params IReadOnlyList<double> dashes)
    {
        using SKPaint paint = new()
        {
            Color = SKColor.Parse(colour),
            IsAntialias = true,
            IsStroke = true,
            StrokeWidth = (float)width,
            StrokeJoin = SKStrokeJoin.Round,
            StrokeCap = dashes.Count == 0 ? SKStrokeCap.Round : SKStrokeCap.Butt,
        };
        using SKPathEffect? effect = dashes.Count == 0 ? null : SKPathEffect.CreateDash([.. dashes.Select(dash => (float)dash)], 0);
        paint.PathEffect = effect;
        using SKPath line = Path(path);
        _surface.Canvas.DrawPath(line, paint);
    }

    /// <inheritdoc/>
    public void Text(double x, double y, string text, double size, string colour, bool centred = false, bool bold = false)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true };
        using SKFont font = new(bold ? Bold : Plain, (float)size) { Subpixel = true, Hinting = SKFontHinting.None, LinearMetrics = true, Edging = SKFontEdging.Antialias };
        _surface.Canvas.DrawText(text, (float)x, (float)y, centred ? SKTextAlign.Center : SKTextAlign.Left, font, paint);
    }

    /// <inheritdoc/>
    public void Within(PicturePath area, Action draw)
    {
        using SKPath path = Path(area);
        _surface.Canvas.Save();
        _surface.Canvas.ClipPath(path, SKClipOperation.Intersect, antialias: true);
        draw();
        _surface.Canvas.Restore();
    }

    /// <summary>The image, as the bytes of a PNG file.</summary>
    public byte[] ToPng()
    {
        using SKImage image = _surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <inheritdoc/>
    public void Dispose() => _surface.Dispose();

    private static SKPath Path(PicturePath from)
    {
        using SKPathBuilder path = new() { FillType = SKPathFillType.EvenOdd };
        foreach (IReadOnlyList<(double X, double Y)> strand in from.Strands)
        {
            for (int i = 0; i < strand.Count; i++)
            {
                (float x, float y) = ((float)strand[i].X, (float)strand[i].Y);
                if (i == 0)
                {
                    path.MoveTo(x, y);
                }
                else
                {
                    path.LineTo(x, y);
                }
            }

            if (from.Closed)
            {
                path.Close();
            }
        }

        return path.Detach();
    }

    private static SKTypeface Font(string name)
    {
        using Stream stream = typeof(PngPen).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The font {name} is not in the program.");
        return SKTypeface.FromStream(stream) ?? throw new InvalidOperationException($"The font {name} cannot be read.");
    }
}
