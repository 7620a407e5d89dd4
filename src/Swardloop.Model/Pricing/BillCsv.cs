using System.Globalization;
using System.Text;

namespace Swardloop.Model.Pricing;

/// <summary>A sum as CSV (RFC 4180): one row a line, then net, tax, rounding and total. Decimal points in every language: programs read it.</summary>
public static class BillCsv
{
    /// <summary>The heading.</summary>
    public const string Heading = "kind,text,quantity,unit,unitPrice,amount,tax,currency";

    /// <summary>Writes it.</summary>
    public static string Of(PriceSum sum)
    {
        StringBuilder csv = new();
        csv.Append(Heading).Append("\r\n");
        foreach (PricedLine line in sum.Lines)
        {
            Row(csv, "line", line.Line.Text, Number(line.Line.Quantity), line.Line.Unit, Number(line.Line.UnitPrice), Number(line.Amount), line.Tax is { } tax ? Number(tax) : "", sum.Settings.Currency);
        }

        Row(csv, "net", "", "", "", "", Number(sum.Net), "", sum.Settings.Currency);
        Row(csv, "tax", "", Number(sum.Settings.TaxPercent), "%", "", Number(sum.Tax), "", sum.Settings.Currency);
        Row(csv, "rounding", "", "", "", "", Number(sum.Rounding), "", sum.Settings.Currency);
        Row(csv, "total", "", "", "", "", Number(sum.Total), "", sum.Settings.Currency);
        return csv.ToString();
    }

    private static string Number(decimal value) => value.ToString("0.00##########", CultureInfo.InvariantCulture);

    private static void Row(StringBuilder csv, params ReadOnlySpan<string> cells)
    {
        for (int i = 0; i < cells.Length; i++)
        {
            csv.Append(i > 0 ? "," : "").Append(Cell(cells[i]));
        }

        csv.Append("\r\n");
    }

    // A cell that begins like a formula would be reckoned by a table program that opens the file.
    private static string Cell(string text)
    {
        string safe = text.Length > 0 && "=+@\t\r".Contains(text[0], StringComparison.Ordinal) ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
