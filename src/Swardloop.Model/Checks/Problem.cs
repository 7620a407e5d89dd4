using System.Globalization;
using System.Text;
using Swardloop.Core.Geometry;

namespace Swardloop.Model.Checks;

/// <summary>One thing wrong in what a person or a program handed in.</summary>
/// <param name="Source">File, or what stands for it: <c>quince-cottage.yard.json</c>, <c>-</c> for standard input.</param>
/// <param name="Place">Where in it: <c>loop.joints[1].atM</c>, <c>line 3, column 14</c>; empty for the whole.</param>
/// <param name="Message">What is wrong, with the value that is there.</param>
/// <param name="Allowed">What may stand there instead; empty when the message says it all.</param>
public sealed record Problem(string Source, string Place, string Message, string Allowed)
{
    /// <summary>The spot of the plan that is meant; <see langword="null"/> when the place in the file says it all.</summary>
    public PlanPoint? Spot { get; init; }

    /// <summary>One line: <c>file: place: what is wrong; allowed: what is allowed</c>. Control characters are shown as escapes,
    /// so that nothing in a file can break the line or steer a terminal.</summary>
    public override string ToString()
    {
        StringBuilder line = new();
        Append(line, Source);
        if (Place.Length > 0)
        {
            Append(line.Append(": "), Place);
        }

        Append(line.Append(": "), Message);
        if (Allowed.Length > 0)
        {
            Append(line.Append("; allowed: "), Allowed);
        }

        return line.ToString();
    }

    private static void Append(StringBuilder line, string text)
    {
        foreach (char c in text)
        {
            bool shown = char.GetUnicodeCategory(c) is not (UnicodeCategory.Control or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator);
            _ = shown ? line.Append(c) : line.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}");
        }
    }
}
