namespace Swardloop.Model.Pictures;

/// <summary>What a picture is drawn with: vectors for a page, pixels for a file. Units are those of the picture, y down.</summary>
public interface IPicturePen
{
    /// <summary>Fills an area.</summary>
    void Fill(PicturePath area, string colour);

    /// <summary>Covers an area with thin slanting lines, so that it can be told without colour.</summary>
    void Hatch(PicturePath area, string colour);

    /// <summary>Draws along a path, with round ends and corners.</summary>
    /// <param name="path">The path.</param>
    /// <param name="colour">As <c>#RRGGBB</c>.</param>
    /// <param name="width">Width of the line.</param>
    /// <param name="dashes">Lengths of dashes and gaps in turn; empty for a firm line.</param>
    void Stroke(PicturePath path, string colour, double width, params IReadOnlyList<double> dashes);

    /// <summary>Writes one line of text.</summary>
    /// <param name="x">Where it starts, or its middle.</param>
    /// <param name="y">Its base line.</param>
    /// <param name="text">The text.</param>
    /// <param name="size">Height of the letters' body.</param>
    /// <param name="colour">As <c>#RRGGBB</c>.</param>
    /// <param name="centred">Whether <paramref name="x"/> is its middle.</param>
    /// <param name="bold">Whether it is bold.</param>
    void Text(double x, double y, string text, double size, string colour, bool centred = false, bool bold = false);

    /// <summary>Draws only within an area what is drawn in <paramref name="draw"/>.</summary>
    void Within(PicturePath area, Action draw);
}
