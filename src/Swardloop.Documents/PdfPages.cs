using SkiaSharp;
using Swardloop.Model.Sheets;
using Swardloop.Pictures;

namespace Swardloop.Documents;

/// <summary>Lays blocks on A4 pages, one below the other: nothing is cut off, tables repeat their heading, a heading never ends a page. Lengths in points.</summary>
internal sealed class PdfPages : IDisposable
{
    private const float Width = 595.28f, Height = 841.89f, Left = 56, Right = 56, Top = 54, Bottom = 64, Gap = 8, Column = 8;
    private const float Room = Width - Left - Right, NameShare = 0.4f, HighestPicture = 230;
    private static readonly SKColor Ink = new(0x11, 0x11, 0x11), Soft = new(0x55, 0x55, 0x55), Rule = new(0xbb, 0xbb, 0xbb);

    private readonly SKDocument _document;
    private readonly Sheet _sheet;
    private readonly PdfText _title = new(20, bold: true), _heading = new(12, bold: true), _text = new(10), _bold = new(10, bold: true), _small = new(8);
    private SKCanvas? _canvas;
    private float _y;
    private int _page;

    public PdfPages(SKDocument document, Sheet sheet)
    {
        (_document, _sheet) = (document, sheet);
        Begin();
        Write(_title, sheet.Title, Left, Room, Ink);
        Write(_text, sheet.Yard, Left, Room, Soft);
        _y += Gap;
    }

    public void Add(SheetBlock block)
    {
        switch (block)
        {
            case SheetBlock.Heading heading:
                _y += Gap;
                Need((_heading.LineHeight * _heading.Lines(heading.Text, Room).Count) + (3 * _text.LineHeight));
                Write(_heading, heading.Text, Left, Room, Ink);
                _y += 2;
                break;
            case SheetBlock.Paragraph paragraph:
                Write(_text, paragraph.Text, Left, Room, Ink);
                _y += Gap / 2;
                break;
            case SheetBlock.Facts facts:
                foreach ((string name, string value) in facts.Rows)
                {
                    Row([(name, Left, Room * NameShare, false), (value, Left + (Room * NameShare) + Column, (Room * (1 - NameShare)) - Column, false)], _text, firstSoft: true);
                }

                _y += Gap / 2;
                break;
            case SheetBlock.Points points:
                for (int i = 0; i < points.Items.Count; i++)
                {
                    Point(points, i);
                }

                _y += Gap / 2;
                break;
            case SheetBlock.Table table:
                Table(table);
                _y += Gap / 2;
                break;
            case SheetBlock.Picture picture:
                Picture(picture);
                break;
            case SheetBlock.Signature signature:
                Need(60);
                if (signature.Mark is { } mark)
                {
                    Mark(mark);
                }

                _y += 44;
                Line(Left, Left + (Room * 0.7f), Ink);
                Write(_small, signature.By is null ? signature.Label : $"{signature.Label}: {signature.By}", Left, Room, Soft);
                break;
            default:
                throw new InvalidOperationException($"No place on a page for {block.GetType().Name}.");
        }
    }

    public void End() => _document.EndPage();

    public void Dispose()
    {
        foreach (PdfText text in new[] { _title, _heading, _text, _bold, _small })
        {
            text.Dispose();
        }
    }

    private void Begin()
    {
        if (_page > 0)
        {
            _document.EndPage();
        }

        _canvas = _document.BeginPage(Width, Height);
        _page++;
        _y = Top;

        // What stands on every page: who writes, about which yard, which page.
        string foot = _sheet.Workshop.Count > 0 ? string.Join("  ·  ", _sheet.Workshop) : $"{_sheet.Title}: {_sheet.Yard}";
        float y = Height - Bottom + 26;
        foreach (string line in _small.Lines(foot, Room - 60).Take(3))
        {
            _small.Draw(_canvas, line, Left, y, Soft);
            y += _small.LineHeight;
        }

        string number = $"{_page}";
        _small.Draw(_canvas, number, Width - Right - _small.WidthOf(number), Height - Bottom + 26, Soft);
    }

    private void Need(float height)
    {
        if (_y + height > Height - Bottom)
        {
            Begin();
        }
    }

    private void Write(PdfText text, string words, float x, float width, SKColor colour)
    {
        foreach (string line in text.Lines(words, width))
        {
            Need(text.LineHeight);
            text.Draw(_canvas!, line, x, _y + text.Size, colour);
            _y += text.LineHeight;
        }
    }

    private void Point(SheetBlock.Points points, int i)
    {
        string mark = points.Mark switch
        {
            PointMark.Dash => "–",
            PointMark.Number => $"{i + 1}.",
            PointMark.Caution => "!",
            PointMark.Box => "□",
            _ => throw new InvalidOperationException($"No mark for {points.Mark}."),
        };
        Row([(mark, Left, 16, false), (points.Items[i], Left + 20, Room - 20, false)], points.Mark == PointMark.Caution ? _bold : _text);
        _y += 2;
    }

    /// <summary>Cells side by side, each in lines of its own; a row that fits on a page is not parted.</summary>
    private void Row((string Text, float X, float Width, bool Number)[] cells, PdfText text, bool firstSoft = false)
    {
        List<string>[] lines = [.. cells.Select(cell => text.Lines(cell.Text, cell.Width))];
        int most = lines.Max(cell => cell.Count);
        Need(Math.Min(most * text.LineHeight, Height - Top - Bottom));
        for (int line = 0; line < most; line++)
        {
            Need(text.LineHeight);
            for (int cell = 0; cell < cells.Length; cell++)
            {
                if (line < lines[cell].Count)
                {
                    float x = cells[cell].Number ? cells[cell].X + cells[cell].Width - text.WidthOf(lines[cell][line]) : cells[cell].X;
                    text.Draw(_canvas!, lines[cell][line], x, _y + text.Size, firstSoft && cell == 0 ? Soft : Ink);
                }
            }

            _y += text.LineHeight;
        }
    }

    private void Table(SheetBlock.Table table)
    {
        float[] widths = Widths(table), at = new float[widths.Length];
        for (int i = 1; i < at.Length; i++)
        {
            at[i] = at[i - 1] + widths[i - 1] + Column;
        }

        Need(4 * _text.LineHeight);
        Heading();
        for (int row = 0; row < table.Rows.Count; row++)
        {
            int page = _page;
            float height = table.Rows[row].Select((cell, i) => _text.Lines(cell, widths[i]).Count).Max() * _text.LineHeight;
            Need(Math.Min(height, Height - Top - Bottom - (2 * _text.LineHeight)));
            if (_page != page)
            {
                Heading();
            }

            bool sum = row >= table.Rows.Count - table.Sums;
            if (sum && row == table.Rows.Count - table.Sums)
            {
                Line(Left, Left + Room, Ink);
            }

            Row(Cells(table.Rows[row]), sum ? _bold : _text);
            if (!sum && row < table.Rows.Count - 1)
            {
                Line(Left, Left + Room, Rule);
            }
        }

        void Heading()
        {
            Row(Cells(table.Columns), _bold);
            Line(Left, Left + Room, Ink);
        }

        (string, float, float, bool)[] Cells(IReadOnlyList<string> texts) => [.. texts.Select((text, i) => (text, Left + at[i], widths[i], table.Numbers[i]))];
    }

    /// <summary>Columns as wide as their longest cell; where that is too much, the columns of words give way.</summary>
    private float[] Widths(SheetBlock.Table table)
    {
        float room = Room - (Column * (table.Columns.Count - 1));
        float[] wanted = [.. table.Columns.Select((heading, i) => Math.Max(_bold.WidthOf(heading), table.Rows.Select(row => _bold.WidthOf(row[i])).DefaultIfEmpty(0).Max()) + 1)];

        // A number's column is as wide as its cells; its heading may break.
        for (int i = 0; i < wanted.Length; i++)
        {
            if (table.Numbers[i])
            {
                float longest = table.Columns[i].Split(' ').Max(word => _bold.WidthOf(word)) + 1;
                wanted[i] = Math.Min(room / 4, Math.Max(longest, table.Rows.Select(row => _bold.WidthOf(row[i])).DefaultIfEmpty(0).Max() + 1));
            }
        }

        // The widest column of words gives way until all fit: a short one, such as a unit, keeps its width.
        for (float over = wanted.Sum() - room; over > 0.01f; over = wanted.Sum() - room)
        {
            int widest = Enumerable.Range(0, wanted.Length).Where(i => !table.Numbers[i]).DefaultIfEmpty(0).MaxBy(i => wanted[i]);
            float next = wanted.Where((width, i) => !table.Numbers[i] && width < wanted[widest]).DefaultIfEmpty(0).Max();
            int alike = Enumerable.Range(0, wanted.Length).Count(i => !table.Numbers[i] && wanted[i] == wanted[widest]);
            float less = Math.Min(wanted[widest] - next, over / Math.Max(1, alike));
            float limit = wanted[widest];
            for (int i = 0; i < wanted.Length; i++)
            {
                wanted[i] -= i == widest || (!table.Numbers[i] && wanted[i] == limit) ? less : 0;
            }
        }

        return wanted;
    }

    private void Picture(SheetBlock.Picture picture)
    {
        float scale = Math.Min(Room / (float)picture.Drawing.Width, HighestPicture / (float)picture.Drawing.Height);
        float height = (float)picture.Drawing.Height * scale;
        Need(height + (3 * _small.LineHeight));
        _canvas!.Save();
        _canvas.Translate(Left, _y);
        _canvas.Scale(scale);
        picture.Drawing.Draw(new CanvasPen(_canvas));
        _canvas.Restore();
        _y += height + 4;
        Write(_small, picture.Caption, Left, Room, Soft);
        _y += Gap;
    }

    // Above its line, 132 points wide: as large as a signature on paper.
    private void Mark(SignatureMark mark)
    {
        const float Scale = 0.44f;
        using SKPaint pen = new() { Color = Ink, StrokeWidth = 1, IsStroke = true, IsAntialias = true, StrokeCap = SKStrokeCap.Round, StrokeJoin = SKStrokeJoin.Round };
        foreach (IReadOnlyList<(int X, int Y)> stroke in mark.Strokes)
        {
            SKPoint[] points = [.. stroke.Append(stroke[^1]).Select(point => new SKPoint(Left + (point.X * Scale), _y + (point.Y * Scale)))];
            _canvas!.DrawPoints(SKPointMode.Polygon, points, pen);
        }
    }

    private void Line(float from, float to, SKColor colour)
    {
        using SKPaint paint = new() { Color = colour, StrokeWidth = 0.5f, IsStroke = true };
        _canvas!.DrawLine(from, _y + 1.5f, to, _y + 1.5f, paint);
        _y += 3;
    }
}
