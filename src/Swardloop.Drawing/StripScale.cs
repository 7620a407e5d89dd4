namespace Swardloop.Drawing;

/// <summary>Where places along the wire lie on the strip.</summary>
/// <param name="LengthMetres">Length of the wire (m), above zero.</param>
/// <param name="Width">Width of the strip (px).</param>
/// <param name="Border">Room left free at both ends (px).</param>
public readonly record struct StripScale(double LengthMetres, double Width, double Border)
{
    /// <summary>Where a place lies (px from the left); beyond an end, that end.</summary>
    public double At(double metres) => Border + (Math.Clamp(metres, 0, LengthMetres) / LengthMetres * (Width - (2 * Border)));

    /// <summary>Which place lies there (m from A); beyond an end, that end.</summary>
    public double MetresAt(double x) => Math.Clamp((x - Border) / (Width - (2 * Border)), 0, 1) * LengthMetres;

    /// <summary>Round distances to mark, about so many pixels apart at least.</summary>
    /// <param name="apartPixels">Least distance of two marks (px).</param>
    /// <param name="unitMetres">The unit in which they are to be round (m).</param>
    public IEnumerable<double> Marks(double apartPixels, double unitMetres = 1)
    {
        double least = apartPixels * LengthMetres / unitMetres / (Width - (2 * Border)), power = Math.Pow(10, Math.Floor(Math.Log10(least)));
        double step = new[] { 1.0, 2, 5, 10 }.Select(round => round * power).First(round => round >= least * (1 - 1e-9)) * unitMetres;
        for (int i = 0; i * step <= LengthMetres * (1 + 1e-9); i++)
        {
            yield return i * step;
        }
    }

    /// <summary>Those of some labels that do not run into each other, kept in the order given.</summary>
    /// <param name="labels">Middle (px) and text of each, the most wanted first.</param>
    /// <param name="letterPixels">Width of a letter (px).</param>
    public static IReadOnlyList<(double X, string Text)> Apart(IEnumerable<(double X, string Text)> labels, double letterPixels)
    {
        List<(double X, string Text)> kept = [];
        foreach ((double x, string text) in labels)
        {
            if (kept.TrueForAll(other => Math.Abs(other.X - x) > letterPixels * (((other.Text.Length + text.Length) / 2.0) + 1.5)))
            {
                kept.Add((x, text));
            }
        }

        return kept;
    }
}
