using SkiaSharp;
using Swardloop.Pictures;

namespace Swardloop.Documents;

/// <summary>Text of one size: how wide it is, and how it breaks into lines. Lengths in points.</summary>
internal sealed class PdfText : IDisposable
{
    private readonly SKFont _font;

    public PdfText(float size, bool bold = false)
    {
        Size = size;
        _font = new(bold ? CanvasPen.Bold : CanvasPen.Plain, size) { Subpixel = true, Hinting = SKFontHinting.None, LinearMetrics = true };
    }

    public float Size { get; }

    public float LineHeight => Size * 1.4f;

    public float WidthOf(string text) => _font.MeasureText(text);

    /// <summary>Lines no wider than so many points; a word that is wider is broken where it must be.</summary>
    public List<string> Lines(string text, float width)
    {
        List<string> lines = [];
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (WidthOf(longer) <= width)
            {
                line = longer;
                continue;
            }

            if (line.Length > 0)
            {
                lines.Add(line);
            }

            line = word;
            while (WidthOf(line) > width && line.Length > 1)
            {
                int fits = Fits(line, width);
                lines.Add(line[..fits]);
                line = line[fits..];
            }
        }

        if (line.Length > 0 || lines.Count == 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    public void Draw(SKCanvas canvas, string text, float x, float y, SKColor colour)
    {
        using SKPaint paint = new() { Color = colour, IsAntialias = true };
        canvas.DrawText(text, x, y, SKTextAlign.Left, _font, paint);
    }

    public void Dispose() => _font.Dispose();

    private int Fits(string word, float width)
    {
        int fits = word.Length - 1;
        while (fits > 1 && WidthOf(word[..fits]) > width)
        {
            fits--;
        }

        // A pair of surrogates is one letter.
        return fits > 1 && char.IsLowSurrogate(word[fits]) ? fits - 1 : fits;
    }
}
