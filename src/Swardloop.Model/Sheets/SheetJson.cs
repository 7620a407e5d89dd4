using System.Text.Json;

namespace Swardloop.Model.Sheets;

/// <summary>A sheet's data as JSON: the blocks by kind, in order, in the sheet's language.</summary>
public static class SheetJson
{
    /// <summary>Writes it.</summary>
    public static void Write(Sheet sheet, Utf8JsonWriter json)
    {
        json.WriteStartObject();
        json.WriteString("kind", SheetKinds.NameOf(sheet.Kind));
        json.WriteString("language", sheet.Language);
        json.WriteString("title", sheet.Title);
        json.WriteString("yard", sheet.Yard);
        Strings(json, "workshop", sheet.Workshop);
        json.WriteStartArray("blocks");
        foreach (SheetBlock block in sheet.Blocks)
        {
            json.WriteStartObject();
            Write(json, block);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SheetBlock block)
    {
        switch (block)
        {
            case SheetBlock.Heading heading:
                json.WriteString("heading", heading.Text);
                break;
            case SheetBlock.Paragraph paragraph:
                json.WriteString("paragraph", paragraph.Text);
                break;
            case SheetBlock.Facts facts:
                json.WriteStartArray("facts");
                foreach ((string name, string value) in facts.Rows)
                {
                    json.WriteStartObject();
                    json.WriteString("name", name);
                    json.WriteString("value", value);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
                break;
            case SheetBlock.Points points:
                Strings(json, "points", points.Items);
                json.WriteString("mark", points.Mark.ToString().ToLowerInvariant());
                break;
            case SheetBlock.Table table:
                Strings(json, "columns", table.Columns);
                json.WriteStartArray("rows");
                foreach (IReadOnlyList<string> row in table.Rows)
                {
                    json.WriteStartArray();
                    foreach (string cell in row)
                    {
                        json.WriteStringValue(cell);
                    }

                    json.WriteEndArray();
                }

                json.WriteEndArray();
                json.WriteNumber("sums", table.Sums);
                break;
            case SheetBlock.Picture picture:
                json.WriteString("picture", picture.Caption);
                json.WriteNumber("silentShare", Math.Round(picture.Drawing.SilentShare, 4));
                break;
            case SheetBlock.Signature signature:
                json.WriteString("signature", signature.Label);
                json.WriteString("signed", signature.By);
                break;
            default:
                throw new InvalidOperationException($"No JSON for {block.GetType().Name}.");
        }
    }

    private static void Strings(Utf8JsonWriter json, string name, IReadOnlyList<string> texts)
    {
        json.WriteStartArray(name);
        foreach (string text in texts)
        {
            json.WriteStringValue(text);
        }

        json.WriteEndArray();
    }
}
