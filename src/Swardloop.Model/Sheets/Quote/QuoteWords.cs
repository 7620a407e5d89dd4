namespace Swardloop.Model.Sheets.Quote;

/// <summary>Texts of the quote.</summary>
internal enum QuoteWord
{
    Title, Compared, Way, Now, PerYear, InYears, NineOfTen, Lines, What, Quantity, Unit, Price, Amount, Net, Tax, TaxIncluded, Rounding, Total, LinesDone, Unknown, Uncertain, NotBinding,
}

/// <summary>Those texts.</summary>
internal static class QuoteWords
{
    public static SheetWords<QuoteWord> English { get; } = new(new()
    {
        [QuoteWord.Title] = "Quote",
        [QuoteWord.Compared] = "Mend or renew",
        [QuoteWord.Way] = "Way",
        [QuoteWord.Now] = "Now",
        [QuoteWord.PerYear] = "Faults a year",
        [QuoteWord.InYears] = "In {0} years, about",
        [QuoteWord.NineOfTen] = "Nine of ten",
        [QuoteWord.Lines] = "What it costs now: {0}",
        [QuoteWord.What] = "What",
        [QuoteWord.Quantity] = "Quantity",
        [QuoteWord.Unit] = "Unit",
        [QuoteWord.Price] = "Each",
        [QuoteWord.Amount] = "Amount",
        [QuoteWord.Net] = "Net",
        [QuoteWord.Tax] = "Tax {0} %",
        [QuoteWord.TaxIncluded] = "Tax {0} %, included",
        [QuoteWord.Rounding] = "Rounding",
        [QuoteWord.Total] = "Total",
        [QuoteWord.LinesDone] = "What was done",
        [QuoteWord.Unknown] = "Where the fault lies is not known yet. The next step: {0}.",
        [QuoteWord.Uncertain] = "The place is not certain yet ({0} to {1} from A): the prices hold once it is found. With finding it, about {2} is expected in all.",
        [QuoteWord.NotBinding] = "Time is reckoned, not measured: what the ground hides may take longer.",
    });

    public static SheetWords<QuoteWord> German { get; } = new(new()
    {
        [QuoteWord.Title] = "Angebot",
        [QuoteWord.Compared] = "Reparieren oder erneuern",
        [QuoteWord.Way] = "Weg",
        [QuoteWord.Now] = "Jetzt",
        [QuoteWord.PerYear] = "Fehler im Jahr",
        [QuoteWord.InYears] = "In {0} Jahren etwa",
        [QuoteWord.NineOfTen] = "Neun von zehn",
        [QuoteWord.Lines] = "Was es jetzt kostet: {0}",
        [QuoteWord.What] = "Was",
        [QuoteWord.Quantity] = "Menge",
        [QuoteWord.Unit] = "Einheit",
        [QuoteWord.Price] = "Einzeln",
        [QuoteWord.Amount] = "Betrag",
        [QuoteWord.Net] = "Netto",
        [QuoteWord.Tax] = "Steuer {0} %",
        [QuoteWord.TaxIncluded] = "Steuer {0} %, enthalten",
        [QuoteWord.Rounding] = "Rundung",
        [QuoteWord.Total] = "Summe",
        [QuoteWord.LinesDone] = "Was getan wurde",
        [QuoteWord.Unknown] = "Wo der Fehler liegt, ist noch nicht bekannt. Nächster Schritt: {0}.",
        [QuoteWord.Uncertain] = "Die Stelle ist noch nicht sicher ({0} bis {1} von A): Die Preise gelten, sobald sie gefunden ist. Mit dem Suchen sind insgesamt etwa {2} zu erwarten.",
        [QuoteWord.NotBinding] = "Zeiten sind gerechnet, nicht gemessen: Was der Boden verbirgt, kann länger dauern.",
    });
}
