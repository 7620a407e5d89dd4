using Swardloop.Core.Diagnosis;
using Swardloop.Model.Pricing;

namespace Swardloop.Model.Sheets.Quote;

/// <summary>Quote: where the fault's place is known, mend or renew with a band and a reason; the lines of what is cheapest. Of a finished case, the lines of what was done.</summary>
public static class QuoteSheet
{
    /// <summary>A stretch that is dug up once the place is found (m); one that is known no better is said to be uncertain. Common practice, no source.</summary>
    private const double SureMetres = 2;

    internal static Sheet Make(SheetSource source)
    {
        SheetWords<QuoteWord> words = source.German ? QuoteWords.German : QuoteWords.English;
        return source.Sheet(SheetKind.Quote, words[QuoteWord.Title], [.. Blocks(source, words), new SheetBlock.Paragraph(words[QuoteWord.NotBinding])]);
    }

    /// <summary>The sum that a quote, or a bill of what was done, comes to.</summary>
    public static (PriceSum Sum, MendOrRenew? Compared, bool Done) SumOf(SheetSource source)
    {
        if (source.Advice.Finished)
        {
            return (PriceSum.Of(StepLines.OfCase(source.Case, source.PriceWords), source.Prices), null, true);
        }

        if (source.Advice.Location is { } at)
        {
            double from = Math.Max(at.LowMetres, at.AtMetres - (SureMetres / 2)), to = Math.Min(at.HighMetres, at.AtMetres + (SureMetres / 2));
            MendOrRenew compared = MendOrRenew.Of(source.Case, at.AtMetres, from, to, source.Prices, source.PriceWords);
            return (compared.Cheapest.Now, compared, false);
        }

        Step[] next = source.Advice.Next.Count > 0 ? [source.Advice.Next[0].Step] : [];
        return (PriceSum.Of(StepLines.Of(source.Case, next, source.PriceWords), source.Prices), null, false);
    }

    private static IEnumerable<SheetBlock> Blocks(SheetSource source, SheetWords<QuoteWord> words)
    {
        (PriceSum sum, MendOrRenew? compared, bool done) = SumOf(source);
        PriceWords prices = source.PriceWords;
        if (compared is not null)
        {
            yield return new SheetBlock.Heading(words[QuoteWord.Compared]);
            yield return new SheetBlock.Table(
                [words[QuoteWord.Way], words[QuoteWord.Now], words[QuoteWord.PerYear], words.Say(QuoteWord.InYears, MendOrRenew.Years), words[QuoteWord.NineOfTen]],
                [false, true, true, true, true],
                [.. compared.Options.Select(option => new[]
                {
                    CommonBlocks.Capital(prices.Of(option.Way)), prices.Money(option.Now.Total, source.Prices), prices.Number(Math.Round((decimal)option.FaultsPerYear, 2)),
                    prices.Money(PriceWords.Whole(option.Expected), source.Prices),
                    $"{prices.Number(PriceWords.Whole(option.Low))} – {prices.Number(PriceWords.Whole(option.High))}",
                })]);
            yield return new SheetBlock.Paragraph(prices.Why(compared));
            yield return new SheetBlock.Paragraph(prices.RestsOn(compared));
            if (source.Advice.Location is { } place && place.HighMetres - place.LowMetres > SureMetres && source.Advice.Next.Count > 0)
            {
                yield return new SheetBlock.Paragraph(words.Say(
                    QuoteWord.Uncertain, source.Book.LengthNumber(place.LowMetres), source.Book.Length(place.HighMetres),
                    prices.Money(PriceWords.Whole((decimal)source.Advice.Next[0].ExpectedCostToFinish), source.Prices)));
            }

            yield return new SheetBlock.Heading(words.Say(QuoteWord.Lines, prices.Of(compared.Cheapest.Way)));
        }
        else if (done)
        {
            yield return new SheetBlock.Heading(words[QuoteWord.LinesDone]);
        }
        else if (source.Advice.Next.Count > 0)
        {
            yield return new SheetBlock.Paragraph(words.Say(QuoteWord.Unknown, prices.Named(source.Advice.Next[0].Step, source.Yard)));
        }

        yield return Lines(source, sum, words);
    }

    private static SheetBlock.Table Lines(SheetSource source, PriceSum sum, SheetWords<QuoteWord> words)
    {
        PriceWords prices = source.PriceWords;
        List<string[]> rows = [.. sum.Lines.Select(line => new[]
        {
            line.Line.Text, prices.Number(line.Line.Quantity), line.Line.Unit, prices.Money(line.Line.UnitPrice, sum.Settings), prices.Money(line.Amount, sum.Settings),
        })];
        int lines = rows.Count;
        if (sum.Settings.TaxPercent > 0)
        {
            rows.Add([words[QuoteWord.Net], "", "", "", prices.Money(sum.Net, sum.Settings)]);
            rows.Add([words.Say(sum.Settings.PricesIncludeTax ? QuoteWord.TaxIncluded : QuoteWord.Tax, prices.Number(sum.Settings.TaxPercent)), "", "", "", prices.Money(sum.Tax, sum.Settings)]);
        }

        if (sum.Rounding != 0)
        {
            rows.Add([words[QuoteWord.Rounding], "", "", "", prices.Money(sum.Rounding, sum.Settings)]);
        }

        rows.Add([words[QuoteWord.Total], "", "", "", prices.Money(sum.Total, sum.Settings)]);
        return new([words[QuoteWord.What], words[QuoteWord.Quantity], words[QuoteWord.Unit], words[QuoteWord.Price], words[QuoteWord.Amount]], [false, true, false, true, true], rows)
        {
            Sums = rows.Count - lines,
        };
    }
}
