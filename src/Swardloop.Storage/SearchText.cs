using System.Text;

namespace Swardloop.Storage;

/// <summary>Text as search compares it: small letters without marks, and telephone numbers without their blanks.</summary>
public static class SearchText
{
    // Marks of the Latin alphabet, by hand: the program runs without the tables of letters of the operating system.
    private const string Marked = "àáâãäåāăąçćĉċčďđèéêëēĕėęěĝğġģĥħìíîïĩīĭįıĵķĺļľŀłñńņňòóôõöøōŏőŕŗřśŝşšţťŧùúûüũūŭůűųŵýÿŷźżž";
    private const string Plain = "aaaaaaaaacccccddeeeeeeeeegggghhiiiiiiiiijklllllnnnnooooooooorrrsssstttuuuuuuuuuuwyyyzzz";

    /// <summary>Folds some texts into one that words can be looked for in.</summary>
    public static string Of(params IEnumerable<string?> parts)
    {
        StringBuilder text = new();
        foreach (string part in parts.OfType<string>().Where(part => part.Length > 0))
        {
            text.Append(Fold(part)).Append('\n');
            string digits = string.Concat(part.Where(char.IsAsciiDigit));
            if (digits.Length >= 5 && digits.Length != part.Length)
            {
                text.Append(digits).Append('\n');
            }
        }

        return text.ToString();
    }

    /// <summary>The words of a question, folded; all of them must be found.</summary>
    /// <param name="question">What a person typed.</param>
    /// <param name="most">Further words are left out.</param>
    public static IReadOnlyList<string> Words(string question, int most = 8) =>
        [.. Fold(question).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Take(most)];

    private static string Fold(string text) => string.Create(text.Length, text, (span, source) =>
    {
        for (int i = 0; i < source.Length; i++)
        {
            char small = char.ToLowerInvariant(source[i]);
            int at = small < 'à' ? -1 : Marked.IndexOf(small, StringComparison.Ordinal);
            span[i] = at < 0 ? small : Plain[at];
        }
    });
}
