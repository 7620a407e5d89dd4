using System.Text;

namespace Swardloop.Trial.CaseBook;

/// <summary>The list of situations in the case book's README, between two marks; a test holds it against the pages.</summary>
public static class BookIndex
{
    /// <summary>The line before and the line after the list.</summary>
    public const string Begin = "<!-- situations -->", End = "<!-- end of situations -->";

    /// <summary>The list as it has to stand, marks included.</summary>
    public static string Of(IEnumerable<Situation> situations)
    {
        StringBuilder text = new StringBuilder(Begin).Append('\n');
        foreach (Situation situation in situations)
        {
            text.Append("- [").Append(situation.Title).Append("](").Append(situation.Slug).Append(".md)\n");
        }

        return text.Append(End).ToString();
    }
}
