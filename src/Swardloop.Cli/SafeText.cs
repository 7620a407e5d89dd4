using System.Globalization;
using System.Text;

namespace Swardloop.Cli;

/// <summary>Other people's words, made safe to print.</summary>
internal static class SafeText
{
    /// <summary>The text as one line of bounded length that cannot steer a terminal, whatever stands in it.</summary>
    /// <param name="text">Words from a file or an argument, or a message that quotes such.</param>
    /// <param name="mostCharacters">What is longer is cut, and ends in …</param>
    public static string OneLine(string text, int mostCharacters)
    {
        StringBuilder line = new();
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (line.Length >= mostCharacters)
            {
                return line.Append('…').ToString();
            }

            bool steers = Rune.GetUnicodeCategory(rune) is UnicodeCategory.Control or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
            line.Append(steers ? "\uFFFD" : rune.ToString());
        }

        return line.ToString();
    }

    /// <summary>An argument as a message quotes it: short, so that what is allowed is still read after it.</summary>
    public static string Quoted(string argument) => $"\"{OneLine(argument, 60)}\"";
}
