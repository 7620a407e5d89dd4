using System.Net;
using System.Text;
using Swardloop.Model.Pictures;

namespace Swardloop.Model.Sheets;

/// <summary>A sheet as one web page that needs nothing else: words, tables, pictures as vectors, printable. Everything from a file is escaped.</summary>
public static class SheetHtml
{
    private const string Style = """
        body{font:16px/1.5 system-ui,sans-serif;max-width:46rem;margin:2rem auto;padding:0 1rem;color:#111;background:#fff}
        h1{font-size:1.6rem;margin:0}h2{font-size:1.1rem;margin:1.6rem 0 .4rem}p{margin:.4rem 0}
        table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.25rem .6rem .25rem 0;border-bottom:1px solid #ccc;overflow-wrap:anywhere}
        .number{text-align:right;white-space:nowrap}.sum td{font-weight:600}dl{display:grid;grid-template-columns:minmax(8rem,18rem) 1fr;gap:.2rem 1rem;margin:.4rem 0}dd{margin:0}
        figure{margin:1rem 0;break-inside:avoid}figure svg{max-width:100%;height:auto;max-height:24rem}figcaption{font-size:.85rem;color:#333}
        .caution li{list-style:"! "}.box li{list-style:"☐ "}footer{margin-top:2rem;font-size:.85rem;color:#333}.sign{margin-top:2.5rem;border-top:1px solid #111;padding-top:.2rem}
        """;

    /// <summary>Writes it.</summary>
    public static string Of(Sheet sheet)
    {
        StringBuilder html = new();
        string title = Safe($"{sheet.Title}: {sheet.Yard}");
        html.Append($"<!doctype html>\n<html lang=\"{Safe(sheet.Language)}\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append($"<title>{title}</title>\n<style>{Style}</style>\n</head>\n<body>\n<main>\n<h1>{Safe(sheet.Title)}</h1>\n<p>{Safe(sheet.Yard)}</p>\n");
        foreach (SheetBlock block in sheet.Blocks)
        {
            Write(html, block);
        }

        html.Append("</main>\n");
        if (sheet.Workshop.Count > 0)
        {
            html.Append("<footer>").AppendJoin("<br>", sheet.Workshop.Select(Safe)).Append("</footer>\n");
        }

        return html.Append("</body>\n</html>\n").ToString();
    }

    private static void Write(StringBuilder html, SheetBlock block)
    {
        switch (block)
        {
            case SheetBlock.Heading heading:
                html.Append($"<h2>{Safe(heading.Text)}</h2>\n");
                break;
            case SheetBlock.Paragraph paragraph:
                html.Append($"<p>{Safe(paragraph.Text)}</p>\n");
                break;
            case SheetBlock.Facts facts:
                html.Append("<dl>").AppendJoin("", facts.Rows.Select(row => $"<dt>{Safe(row.Name)}</dt><dd>{Safe(row.Value)}</dd>")).Append("</dl>\n");
                break;
            case SheetBlock.Points points:
                string tag = points.Mark == PointMark.Number ? "ol" : "ul";
                string kind = points.Mark switch { PointMark.Caution => " class=\"caution\"", PointMark.Box => " class=\"box\"", _ => "" };
                html.Append($"<{tag}{kind}>").AppendJoin("", points.Items.Select(item => $"<li>{Safe(item)}</li>")).Append($"</{tag}>\n");
                break;
            case SheetBlock.Table table:
                Table(html, table);
                break;
            case SheetBlock.Picture picture:
                SvgPen pen = new();
                picture.Drawing.Draw(pen);
                html.Append($"<figure>{pen.Document(picture.Drawing.Width, picture.Drawing.Height, picture.Caption)}<figcaption>{Safe(picture.Caption)}</figcaption></figure>\n");
                break;
            case SheetBlock.Signature signature:
                if (signature.Mark is { } mark)
                {
                    html.Append($"<svg viewBox=\"0 0 {SignatureMark.Width} {SignatureMark.Height}\" width=\"{SignatureMark.Width}\" height=\"{SignatureMark.Height}\" role=\"img\" aria-label=\"{Safe(signature.By ?? "")}\">")
                        .AppendJoin("", mark.Strokes.Select(stroke => $"<polyline points=\"{SignatureMark.Points(stroke)}\" fill=\"none\" stroke=\"#111\" stroke-width=\"2\"/>")).Append("</svg>\n");
                }

                html.Append($"<p class=\"sign\">{Safe(signature.By is null ? signature.Label : $"{signature.Label}: {signature.By}")}</p>\n");
                break;
            default:
                throw new InvalidOperationException($"No page for {block.GetType().Name}.");
        }
    }

    private static void Table(StringBuilder html, SheetBlock.Table table)
    {
        string Cell(string tag, int column, string text) => $"<{tag}{(tag == "th" ? " scope=\"col\"" : "")}{(table.Numbers[column] ? " class=\"number\"" : "")}>{Safe(text)}</{tag}>";
        html.Append("<table><thead><tr>").AppendJoin("", table.Columns.Select((text, i) => Cell("th", i, text))).Append("</tr></thead><tbody>");
        for (int row = 0; row < table.Rows.Count; row++)
        {
            html.Append(row >= table.Rows.Count - table.Sums ? "<tr class=\"sum\">" : "<tr>").AppendJoin("", table.Rows[row].Select((text, i) => Cell("td", i, text))).Append("</tr>");
        }

        html.Append("</tbody></table>\n");
    }

    private static string Safe(string text) => WebUtility.HtmlEncode(text);
}
