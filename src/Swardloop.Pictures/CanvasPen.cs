using SkiaSharp;
using Swardloop.Model.Pictures;

namespace Swardloop.Pictures;

/// <summary>Draws on a canvas: pixels or a page of a document. The fonts come with the program, so every machine draws the same letters.</summary>
/// <param name="canvas">What is drawn on; it stays the caller's.</param>
public sealed class CanvasPen(SKCanvas canvas) : IPicturePen
{
    /// <summary>The font of plain text.</summary>
    public static SKTypeface Plain { get; } = Font("DejaVuSans.ttf");

    /// <summary>The font of bold text.</summary>
    public static SKTypeface Bold { get; } = Font("DejaVuSans-Bold.ttf");

    /// <inheritdoc/>
    public void Fill(PicturePath area, string colour)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true };
        using SKPath path = Path(area);
        canvas.DrawPath(path, paint);
    }

    /// <inheritdoc/>
    public void Hatch(PicturePath area, string colour)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true, IsStroke = true, StrokeWidth = 1.6f };
        using SKPath path = Path(area);
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
        canvas.DrawPath(line, paint);
    }

    /// <inheritdoc/>
    public void Text(double x, double y, string text, double size, string colour, bool centred = false, bool bold = false)
    {
        using SKPaint paint = new() { Color = SKColor.Parse(colour), IsAntialias = true };
        using SKFont font = new(bold ? Bold : Plain, (float)size) { Subpixel = true, Hinting = SKFontHinting.None, LinearMetrics = true, Edging = SKFontEdging.Antialias };
        canvas.DrawText(text, (float)x, (float)y, centred ? SKTextAlign.Center : SKTextAlign.Left, font, paint);
    }

    /// <inheritdoc/>
    public void Within(PicturePath area, Action draw)
    {
        using SKPath path = Path(area);
        canvas.Save();
        canvas.ClipPath(path, SKClipOperation.Intersect, antialias: true);
        draw();
        canvas.Restore();
    }

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
        using Stream stream = typeof(CanvasPen).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The font {name} is not in the program.");
        return SKTypeface.FromStream(stream) ?? throw new InvalidOperationException($"The font {name} cannot be read.");
    }
}
