using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Swardloop.Model.Checks;

/// <summary>Writes a JSON tree the way people like to edit it: what fits into a line stands on one line, coordinates fill lines.
/// Numbers that came from a file keep their digits.</summary>
public static class JsonLayout
{
    private const int LineCharacters = 110;

    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>UTF-8 text of the tree, ending in a line feed.</summary>
    public static byte[] ToUtf8(JsonNode tree)
    {
        StringBuilder text = new();
        Append(text, tree, 0);
        return Encoding.UTF8.GetBytes(text.Append('\n').ToString());
    }

    private static void Append(StringBuilder text, JsonNode? node, int indent)
    {
        int start = text.Length;
        if (TryAppendInline(text, node, start + LineCharacters - indent))
        {
            return;
        }

        text.Length = start;
        bool fill = node is JsonArray points && points.All(item => item is JsonArray or JsonValue);
        char[] brackets = node is JsonArray ? ['[', ']'] : ['{', '}'];
        _ = text.Append(brackets[0]);
        int lineStart = NewLine(text, indent + 2);
        bool first = true;
        foreach ((string? name, JsonNode? child) in Children(node!))
        {
            int before = text.Length;
            _ = text.Append(first ? "" : ", ");
            bool inline = fill && TryAppendInline(text, child, lineStart + LineCharacters - indent);
            if (!inline)
            {
                text.Length = before;
                if (!first)
                {
                    _ = text.Append(',');
                    lineStart = NewLine(text, indent + 2);
                }

                AppendName(text, name);
                Append(text, child, indent + 2);
            }

            first = false;
        }

        _ = NewLine(text, indent);
        _ = text.Append(brackets[1]);
    }

    /// <summary>Appends a node on one line unless that would pass a length; then what was appended is the caller's to take back.</summary>
    private static bool TryAppendInline(StringBuilder text, JsonNode? node, int mostLength)
    {
        if (node is null or JsonValue)
        {
            AppendScalar(text, node);
            return true; // a scalar cannot be broken
        }

        string[] brackets = node is JsonArray ? ["[", "]"] : ["{ ", " }"];
        _ = text.Append(brackets[0]);
        bool first = true;
        foreach ((string? name, JsonNode? child) in Children(node))
        {
            _ = text.Append(first ? "" : ", ");
            AppendName(text, name);
            if (!TryAppendInline(text, child, mostLength) || text.Length > mostLength)
            {
                return false;
            }

            first = false;
        }

        _ = text.Append(brackets[1]);
        return text.Length <= mostLength;
    }

    private static IEnumerable<(string? Name, JsonNode? Child)> Children(JsonNode node) => node is JsonArray array
        ? array.Select(item => ((string?)null, item))
        : node.AsObject().Select(property => ((string?)property.Key, property.Value));

    private static int NewLine(StringBuilder text, int indent) => text.Append('\n').Append(' ', indent).Length - indent;

    private static void AppendName(StringBuilder text, string? name)
    {
        if (name is not null)
        {
            AppendScalar(text, JsonValue.Create(name));
            _ = text.Append(": ");
        }
    }

    private static void AppendScalar(StringBuilder text, JsonNode? value)
    {
        if (value is null)
        {
            _ = text.Append("null");
            return;
        }

        ArrayBufferWriter<byte> buffer = new();
        using (Utf8JsonWriter writer = new(buffer, Options))
        {
            value.WriteTo(writer);
        }

        _ = text.Append(Encoding.UTF8.GetString(buffer.WrittenSpan));
    }
}
