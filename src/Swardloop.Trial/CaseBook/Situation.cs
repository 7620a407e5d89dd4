using System.Text.Json;

namespace Swardloop.Trial.CaseBook;

/// <summary>One situation of the case book: a page for people with one block of JSON in it, the case and what is expected of the advice.</summary>
/// <param name="Slug">The file's name without its ending: number and words.</param>
/// <param name="Title">The page's heading.</param>
/// <param name="Case">A case file with its yard inside.</param>
/// <param name="Expect">What is expected; the words are explained in the book's README.</param>
public sealed record Situation(string Slug, string Title, JsonElement Case, JsonElement Expect)
{
    private const string Open = "```json\n", Close = "\n```";

    /// <summary>Reads all situations of a directory, in the order of their numbers.</summary>
    /// <param name="directory">Where the pages lie, as <c>NN-words.md</c>.</param>
    /// <exception cref="FormatException">A page is not as it should be; the message names it.</exception>
    public static IReadOnlyList<Situation> ReadAll(string directory) =>
        [.. Directory.EnumerateFiles(directory, "*.md")
            .Where(path => char.IsAsciiDigit(Path.GetFileName(path)[0]))
            .OrderBy(path => Path.GetFileName(path).IndexOf('-', StringComparison.Ordinal)).ThenBy(path => path, StringComparer.Ordinal)
            .Select(path => Read(Path.GetFileNameWithoutExtension(path), File.ReadAllText(path)))];

    /// <summary>Reads one page.</summary>
    /// <param name="slug">The file's name without its ending.</param>
    /// <param name="page">Its text.</param>
    /// <exception cref="FormatException">It has no heading, not exactly one block of JSON, or no case and expectation in it.</exception>
    public static Situation Read(string slug, string page)
    {
        if (!page.StartsWith("# ", StringComparison.Ordinal))
        {
            throw new FormatException($"{slug}: starts with no heading");
        }

        int open = page.IndexOf(Open, StringComparison.Ordinal);
        int close = open < 0 ? -1 : page.IndexOf(Close, open, StringComparison.Ordinal);
        if (close < 0 || page.IndexOf(Open, close, StringComparison.Ordinal) >= 0)
        {
            throw new FormatException($"{slug}: needs exactly one block of JSON");
        }

        try
        {
            using JsonDocument document = JsonDocument.Parse(page[(open + Open.Length)..close]);
            JsonElement block = document.RootElement.Clone();
            return new(slug, page[2..page.IndexOf('\n', StringComparison.Ordinal)].Trim(), block.GetProperty("case"), block.GetProperty("expect"));
        }
        catch (Exception fault) when (fault is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            throw new FormatException($"{slug}: {fault.Message}", fault);
        }
    }
}
