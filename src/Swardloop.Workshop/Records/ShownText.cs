using System.Globalization;
using System.Text;

namespace Swardloop.Workshop.Records;

/// <summary>Text as it is seen.</summary>
public static class ShownText
{
    // Letters by their class, and yet nothing to be seen: fillers of Hangul, and the blank of Braille.
    private static readonly HashSet<int> Blank = [0x115F, 0x1160, 0x2800, 0x3164, 0xFFA0];

    /// <summary>Whether anything of a text can be seen: a name of blanks, of signs without width or of marks that stand on nothing names nobody.</summary>
    public static bool IsSeen(string text) => Seen(text).Length > 0;

    /// <summary>What of a text can be seen, blanks left out.</summary>
    public static string Seen(string text) => string.Concat(text.EnumerateRunes().Where(rune => !Blank.Contains(rune.Value) && Rune.GetUnicodeCategory(rune)
        is not (UnicodeCategory.SpaceSeparator or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator or UnicodeCategory.Control or UnicodeCategory.Format
            or UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Surrogate or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned)));
}
