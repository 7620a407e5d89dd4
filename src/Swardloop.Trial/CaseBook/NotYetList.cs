using System.Globalization;

namespace Swardloop.Trial.CaseBook;

/// <summary>The situations that the engine does not do well yet, each with the day it was listed. The list only shrinks: a situation on it
/// that passes has to be struck, one not on it that fails is a mistake of the engine.</summary>
public static class NotYetList
{
    /// <summary>Name of the list's file in the case book.</summary>
    public const string FileName = "not-yet.txt";

    /// <summary>Reads the list: <c>slug date</c> a line; blank lines and lines from # on are for people.</summary>
    /// <exception cref="FormatException">A line is not like that, or a situation stands there twice.</exception>
    public static IReadOnlyDictionary<string, DateOnly> Read(string text)
    {
        Dictionary<string, DateOnly> listed = new(StringComparer.Ordinal);
        foreach (string line in text.Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0 && line[0] != '#'))
        {
            string[] words = line.Split((char[]?)null, 2, StringSplitOptions.RemoveEmptyEntries);
            if (words.Length != 2
                || !DateOnly.TryParseExact(words[1].Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly day)
                || !listed.TryAdd(words[0], day))
            {
                throw new FormatException($"{FileName}: \"{line}\"; allowed: a situation's name, each once, and the day as 2026-11-29");
            }
        }

        return listed;
    }
}
