using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Swardloop.Documents;

/// <summary>Says in a PDF which language it is in, and that its title is to be shown: both stand in the catalogue, which the drawing library does not let us write.</summary>
/// <remarks>An incremental update: the changed catalogue is appended with a table of its own. Source: ISO 32000-1:2008, 7.5.6 and 14.9.2, from memory.</remarks>
internal static partial class PdfLanguage
{
    /// <summary>Appends the update.</summary>
    /// <param name="pdf">A PDF with a classic table of references.</param>
    /// <param name="language">BCP 47, such as <c>de</c>.</param>
    /// <exception cref="InvalidOperationException">The file has no catalogue where it says so.</exception>
    public static byte[] Tag(byte[] pdf, string language)
    {
        string text = Encoding.Latin1.GetString(pdf);
        Match trailer = Trailer().Match(text), root = Root().Match(text), size = Size().Match(text), start = Start().Match(text);
        if (!trailer.Success || !root.Success || !size.Success || !start.Success)
        {
            throw new InvalidOperationException("The PDF has no trailer as expected.");
        }

        string number = root.Groups[1].Value;
        int at = text.IndexOf($"\n{number} 0 obj", StringComparison.Ordinal), end = at < 0 ? -1 : text.IndexOf("endobj", at, StringComparison.Ordinal);
        int open = at < 0 ? -1 : text.IndexOf("<<", at, StringComparison.Ordinal);
        if (end < 0 || open < 0 || open > end)
        {
            throw new InvalidOperationException("The PDF has no catalogue as expected.");
        }

        string catalogue = $"{number} 0 obj\n<</Lang ({language})\n/ViewerPreferences <</DisplayDocTitle true>>\n{text[(open + 2)..end]}endobj\n";
        int offset = pdf.Length + 1;
        string info = Info().Match(text) is { Success: true } found ? $"/Info {found.Groups[1].Value} 0 R\n" : "";
        string id = Id().Match(text) is { Success: true } known ? $"/ID {known.Groups[1].Value}\n" : "";
        string update = string.Create(CultureInfo.InvariantCulture,
            $"\n{catalogue}xref\n{number} 1\n{offset:0000000000} 00000 n \ntrailer\n<</Size {size.Groups[1].Value}\n/Root {number} 0 R\n{info}{id}/Prev {start.Groups[1].Value}>>\nstartxref\n{offset + catalogue.Length}\n%%EOF\n");
        return [.. pdf, .. Encoding.Latin1.GetBytes(update)];
    }

    [GeneratedRegex(@"trailer\s*<<")]
    private static partial Regex Trailer();

    [GeneratedRegex(@"/Root (\d+) 0 R")]
    private static partial Regex Root();

    [GeneratedRegex(@"/Size (\d+)")]
    private static partial Regex Size();

    [GeneratedRegex(@"startxref\s+(\d+)\s+%%EOF", RegexOptions.RightToLeft)]
    private static partial Regex Start();

    [GeneratedRegex(@"/Info (\d+) 0 R")]
    private static partial Regex Info();

    [GeneratedRegex(@"/ID\s*(\[[^\]]*\])")]
    private static partial Regex Id();
}
