using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace Swardloop.Model.Checks;

/// <summary>Turns the bytes of a file from anywhere into a JSON document, or says why not; bounded in time, stack and memory.</summary>
/// <remarks>Refused beside plain syntax errors: files over <see cref="MostBytes"/>, anything nested deeper than
/// <see cref="MostDepth"/>, more than <see cref="MostProperties"/> properties, a property named twice in one object, text that is
/// not UTF-8 or holds half of a surrogate pair. A byte order mark is skipped. Comments and trailing commas are errors.</remarks>
public static class JsonText
{
    /// <summary>Largest file read (bytes).</summary>
    public const int MostBytes = 16 * 1024 * 1024;

    /// <summary>Deepest nesting read.</summary>
    public const int MostDepth = 32;

    /// <summary>Most properties in one file.</summary>
    public const int MostProperties = 200_000;

    private static readonly string SizeAllowed = $"a file of at most {MostBytes / (1024 * 1024)} MiB";

    /// <summary>Parses a file.</summary>
    /// <param name="utf8">The file's bytes. The document refers to them: they must not change while it is in use.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns>The document, to be disposed of by the caller; <see langword="null"/> when there was a problem.</returns>
    public static JsonDocument? Parse(ReadOnlyMemory<byte> utf8, ProblemList problems)
    {
        if (utf8.Length > MostBytes)
        {
            problems.Add("", $"the file has {utf8.Length} bytes", SizeAllowed);
            return null;
        }

        if (utf8.Span.StartsWith("\uFEFF"u8))
        {
            utf8 = utf8[3..];
        }

        if (!Utf8.IsValid(utf8.Span))
        {
            int at = FirstInvalid(utf8.Span);
            problems.Add(PlaceOf(utf8.Span, at), $"byte 0x{utf8.Span[at]:x2} is not UTF-8 text here", "UTF-8");
            return null;
        }

        int before = problems.Count;
        try
        {
            Scan(utf8.Span, problems);
            return problems.Count == before
                ? JsonDocument.Parse(utf8, new JsonDocumentOptions { MaxDepth = MostDepth })
                : null;
        }
        catch (JsonException e)
        {
            problems.Add(PlaceOf(utf8.Span, e.LineNumber ?? 0, e.BytePositionInLine ?? 0), Reason(e), "JSON (RFC 8259)");
            return null;
        }
    }

    /// <summary>Reads every token once, for what the parser itself does not refuse.</summary>
    private static void Scan(ReadOnlySpan<byte> utf8, ProblemList problems)
    {
        Utf8JsonReader reader = new(utf8, new JsonReaderOptions { MaxDepth = MostDepth });
        HashSet<string>?[] names = new HashSet<string>?[MostDepth + 1];
        int properties = 0;
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.StartObject)
            {
                names[reader.CurrentDepth]?.Clear();
            }
            else if (reader.TokenType is JsonTokenType.PropertyName or JsonTokenType.String)
            {
                bool isName = reader.TokenType == JsonTokenType.PropertyName;
                if (!isName && !reader.ValueIsEscaped)
                {
                    continue;
                }

                string? text = TextOrNull(ref reader);
                if (text is null)
                {
                    problems.Add(PlaceOf(utf8, (int)reader.TokenStartIndex), "a \\u escape stands for half a character", "whole surrogate pairs");
                }
                else if (isName && !(names[reader.CurrentDepth - 1] ??= []).Add(text))
                {
                    problems.Add(PlaceOf(utf8, (int)reader.TokenStartIndex), $"the property '{Shortened(text)}' stands twice in one object", "each property once");
                }

                if (isName && ++properties > MostProperties)
                {
                    problems.Add("", "the file has too many properties", $"at most {MostProperties}");
                    return;
                }

                if (problems.IsFull)
                {
                    return;
                }
            }
        }
    }

    private static string? TextOrNull(ref Utf8JsonReader reader)
    {
        try
        {
            return reader.GetString();
        }
        catch (InvalidOperationException)
        {
            return null; // the bytes are UTF-8, so this is an escaped half of a surrogate pair
        }
    }

    /// <summary>A value from a file, cut to a length that fits into one line of a message.</summary>
    internal static string Shortened(string text) => text.Length <= 60 ? text : text[..57] + "…";

    private static string Reason(JsonException e)
    {
        string reason = e.Message;
        int position = reason.IndexOf(" LineNumber:", StringComparison.Ordinal);
        reason = position < 0 ? reason : reason[..position];
        reason = reason.Replace(" Change the reader options.", "", StringComparison.Ordinal).TrimEnd('.');
        return reason.Length <= 200 ? reason : reason[..199] + "…"; // it may quote the rest of the line
    }

    private static int FirstInvalid(ReadOnlySpan<byte> utf8)
    {
        int at = 0;
        while (Rune.DecodeFromUtf8(utf8[at..], out _, out int used) == System.Buffers.OperationStatus.Done)
        {
            at += used;
        }

        return at;
    }

    private static string PlaceOf(ReadOnlySpan<byte> utf8, int offset)
    {
        ReadOnlySpan<byte> before = utf8[..offset];
        return PlaceOf(utf8, before.Count((byte)'\n'), offset - (before.LastIndexOf((byte)'\n') + 1));
    }

    private static string PlaceOf(ReadOnlySpan<byte> utf8, long line, long bytesIntoLine)
    {
        for (long skipped = 0; skipped < line; skipped++)
        {
            utf8 = utf8[(utf8.IndexOf((byte)'\n') + 1)..];
        }

        // Columns count characters, as editors do.
        return $"line {line + 1}, column {Encoding.UTF8.GetCharCount(utf8[..(int)Math.Min(bytesIntoLine, utf8.Length)]) + 1}";
    }
}
