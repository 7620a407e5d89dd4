using System.Globalization;

namespace Swardloop.Model.Sheets;

/// <summary>A signature drawn with a finger: strokes of points on a field of 300 by 100, whole numbers, from the upper left.</summary>
/// <param name="Strokes">The strokes in order, each of one point or more.</param>
public sealed record SignatureMark(IReadOnlyList<IReadOnlyList<(int X, int Y)>> Strokes)
{
    /// <summary>The field's width.</summary>
    public const int Width = 300;

    /// <summary>The field's height.</summary>
    public const int Height = 100;

    /// <summary>Reads it: points as <c>x,y</c> with blanks between, strokes with semicolons.</summary>
    /// <returns>Null for what is no such text, or is empty.</returns>
    public static SignatureMark? Read(string? text)
    {
        List<IReadOnlyList<(int, int)>> strokes = [];
        foreach (string stroke in (text ?? "").Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            List<(int, int)> points = [];
            foreach (string point in stroke.Split(' ', StringSplitOptions.RemoveEmptyEntries))
            {
                string[] parts = point.Split(',');
                if (parts.Length != 2 || !Whole(parts[0], Width, out int x) || !Whole(parts[1], Height, out int y))
                {
                    return null;
                }

                points.Add((x, y));
            }

            if (points.Count > 0)
            {
                strokes.Add(points);
            }
        }

        return strokes.Count > 0 ? new(strokes) : null;
    }

    /// <summary>A stroke's points as SVG has them.</summary>
    public static string Points(IReadOnlyList<(int X, int Y)> stroke) => string.Join(' ', stroke.Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.X},{point.Y}")));

    /// <summary>The text that is read back.</summary>
    public override string ToString() => string.Join(';', Strokes.Select(Points));

    private static bool Whole(string text, int most, out int value) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value <= most;
}
