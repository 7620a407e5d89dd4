using System.Text;

namespace Swardloop.Model.Sheets;

/// <summary>A sheet as plain text: a message that any mail program shows. Lines of at most 72 characters, except words that are longer.</summary>
public static class SheetText
{
    /// <summary>Widest line (characters).</summary>
    public const int Columns = 72;

    /// <summary>Writes it.</summary>
    public static string Of(Sheet sheet)
    {
        StringBuilder text = new();
        Line(text, $"{sheet.Title}: {sheet.Yard}");
        foreach (SheetBlock block in sheet.Blocks)
        {
            text.Append('\n');
            Write(text, block);
        }

        if (sheet.Workshop.Count > 0)
        {
            text.Append('\n');
            foreach (string line in sheet.Workshop)
            {
                Line(text, line);
            }
        }

        return text.ToString();
    }

    private static void Write(StringBuilder text, SheetBlock block)
    {
        switch (block)
        {
            case SheetBlock.Heading heading:
                Line(text, heading.Text.ToUpperInvariant());
                break;
            case SheetBlock.Paragraph paragraph:
                Line(text, paragraph.Text);
                break;
            case SheetBlock.Facts facts:
                foreach ((string name, string value) in facts.Rows)
                {
                    Line(text, $"{name}: {value}", "", "    ");
                }

                break;
            case SheetBlock.Points points:
                for (int i = 0; i < points.Items.Count; i++)
                {
                    string mark = points.Mark switch
                    {
                        PointMark.Dash => "- ",
                        PointMark.Number => $"{i + 1}. ",
                        PointMark.Caution => "! ",
                        PointMark.Box => "[ ] ",
                        _ => throw new InvalidOperationException($"No mark for {points.Mark}."),
                    };
                    Line(text, points.Items[i], mark, new string(' ', mark.Length));
                }

                break;
            case SheetBlock.Table table:
                foreach (IReadOnlyList<string> row in table.Rows)
                {
                    IEnumerable<string> cells = table.Columns.Select((column, i) => (column, Cell: row[i])).Where(one => one.Cell.Length > 0)
                        .Select((one, i) => i == 0 ? one.Cell : $"{one.column} {one.Cell}");
                    Line(text, string.Join("; ", cells), "- ", "  ");
                }

                break;
            case SheetBlock.Picture picture:
                Line(text, picture.Caption);
                break;
            case SheetBlock.Signature signature:
                Line(text, $"{signature.Label}: {signature.By ?? "______________________________"}");
                break;
            default:
                throw new InvalidOperationException($"No text for {block.GetType().Name}.");
        }
    }

    private static void Line(StringBuilder text, string words, string first = "", string further = "")
    {
        string start = first;
        int column = 0;
        foreach (string word in words.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (column > 0 && start.Length + column + 1 + word.Length > Columns)
            {
                text.Append('\n');
                (start, column) = (further, 0);
            }

            text.Append(column == 0 ? start : " ").Append(word);
            column += word.Length + (column == 0 ? 0 : 1);
        }

        text.Append('\n');
    }
}
