using System.Text;
using System.Text.RegularExpressions;

namespace Swardloop.Cli.Tests;

/// <summary>What a page says stands in the language files, not in the page: a text written into a page exists in one language only.</summary>
public sealed class ScreenTextTests
{
    // The product's name, units, names of keys and formats, what a meter shows, and languages by their own names.
    private static readonly string[] Anywhere = ["Swardloop", "min", "mm", "kHz", "Hz", "dB", "Ctrl", "Shift", "Esc", "QR", "CSV", "GPX", "GeoJSON", "PDF", "OK", "OL", "English", "Deutsch"];

    // A keyword's condition holds no text; a type's argument is no tag.
    private static readonly Regex Keyword = new(@"\G@(if|foreach|for|switch|while|lock|using)\s*(?=\()"), TypeArgument = new(@"\G(?<=\w)<(string|int|double|bool|[A-Z][\w.]*)[?\[\]]*(, [\w.]+)*>");

    private static readonly Regex Letters = new(@"\p{L}{2,}");

    private static readonly Regex SpokenAttribute = new(@"(?<![\w-])(aria-label|aria-description|title|placeholder|alt|label)=""([^""@]*)""", RegexOptions.IgnoreCase);

    [Fact]
    public void No_page_holds_a_text_of_its_own()
    {
        string[] pages = [.. Directory.EnumerateFiles(Repository.At("src"), "*.razor", SearchOption.AllDirectories)
            .Where(file => !file.Split('/').Any(part => part is "bin" or "obj"))];
        Assert.True(pages.Length > 30, $"{pages.Length} pages");
        Assert.Empty(pages.SelectMany(file => TextsOf(File.ReadAllText(file)).Select(text => $"{Path.GetRelativePath(Repository.Root, file)}: {text}")));
    }

    [Theory]
    [InlineData("<p>Measure the loop</p>", "Measure the loop")]
    [InlineData("<p class=\"a\">@T.Photo <b>now</b></p>", "now")]
    [InlineData("<button title=\"Close\">@T.Close</button>", "Close")]
    public void The_scan_finds_a_text(string page, string text) => Assert.Equal([text], TextsOf(page));

    [Theory]
    [InlineData("<p class=\"small\" @onclick=\"() => Save(a > 2, \"\"x\"\")\">@T.Photo · @(Count(list[0], \"of\") + 1) Ω</p>")]
    [InlineData("@if (a is { } b) {<span>@b.Name</span>} else {<b>@T.No</b>}")]
    [InlineData("@code { private string Word => \"text\"; }")]
    [InlineData("@* <p>A remark</p> *@<p>5 min</p>")]
    public void The_scan_passes_what_says_nothing(string page) => Assert.Empty(TextsOf(page));

    // Text that stands behind a tag, up to the next tag, expression or brace, and what spoken attributes say.
    private static IEnumerable<string> TextsOf(string page)
    {
        page = Regex.Replace(page, @"@\*.*?\*@|<!--.*?-->|<style.*?</style>|<script.*?</script>", "", RegexOptions.Singleline);
        int code = page.IndexOf("@code", StringComparison.Ordinal);
        page = code >= 0 ? page[..code] : page;
        int at = 0;
        while (at < page.Length)
        {
            if (Keyword.Match(page, at) is { Success: true } keyword)
            {
                at = EndOfBrackets(page, at + keyword.Length);
                continue;
            }

            if (page[at] != '<' || at + 1 >= page.Length || !(char.IsLetter(page[at + 1]) || page[at + 1] == '/') || TypeArgument.IsMatch(page, at))
            {
                at++;
                continue;
            }

            int end = EndOfTag(page, at);
            foreach (Match spoken in SpokenAttribute.Matches(page[at..end]))
            {
                if (Says(spoken.Groups[2].Value) is { } said)
                {
                    yield return said;
                }
            }

            at = end;
            StringBuilder text = new();
            while (at < page.Length && page[at] is not ('<' or '{' or '}' or '\n'))
            {
                if (page[at] == '@')
                {
                    at = EndOfExpression(page, at);
                    text.Append(' ');
                }
                else
                {
                    text.Append(page[at++]);
                }
            }

            if (Says(text.ToString()) is { } shown)
            {
                yield return shown;
            }
        }
    }

    private static string? Says(string text) =>
        Letters.Matches(Regex.Replace(text, "&[a-z]+;", " ")).Any(word => !Anywhere.Contains(word.Value)) ? text.Trim() : null;

    private static int EndOfTag(string page, int at)
    {
        for (at++; at < page.Length && page[at] != '>'; at++)
        {
            if (page[at] is '"' or '\'')
            {
                char quote = page[at];
                for (at++; at < page.Length && page[at] != quote; at++)
                {
                    if (page[at] == '@' && at + 1 < page.Length && page[at + 1] == '(')
                    {
                        at = EndOfBrackets(page, at + 1) - 1;
                    }
                }
            }
        }

        return Math.Min(at + 1, page.Length);
    }

    // @name.of(a)[b]?.c or @(…)
    private static int EndOfExpression(string page, int at)
    {
        if (Keyword.Match(page, at) is { Success: true } keyword)
        {
            return EndOfBrackets(page, at + keyword.Length);
        }

        at++;
        while (at < page.Length)
        {
            if (page[at] is '(' or '[')
            {
                at = EndOfBrackets(page, at);
                if (at < page.Length && page[at] is not ('.' or '(' or '[' or '?' or '!'))
                {
                    return at;
                }
            }
            else if (char.IsLetterOrDigit(page[at]) || page[at] == '_' || (page[at] is '.' or '?' or '!' && at + 1 < page.Length && (char.IsLetter(page[at + 1]) || page[at + 1] is '.' or '_')))
            {
                at++;
            }
            else
            {
                return at;
            }
        }

        return at;
    }

    private static int EndOfBrackets(string page, int at)
    {
        int depth = 0;
        for (; at < page.Length; at++)
        {
            if (page[at] == '"')
            {
                for (at++; at < page.Length && page[at] != '"'; at++)
                {
                    at += page[at] == '\\' ? 1 : 0;
                }
            }
            else if (page[at] is '(' or '[')
            {
                depth++;
            }
            else if (page[at] is ')' or ']' && --depth == 0)
            {
                return at + 1;
            }
        }

        return at;
    }
}
