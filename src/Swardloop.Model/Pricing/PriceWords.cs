using System.Globalization;
using Swardloop.Core.Diagnosis;
using Swardloop.Core.Yards;
using Swardloop.Model.Steps;
using Swardloop.Model.Words;

namespace Swardloop.Model.Pricing;

/// <summary>Words and numbers of prices in one language.</summary>
public sealed class PriceWords
{
    private readonly StepTexts _steps;
    private readonly NumberFormatInfo _numbers;
    private readonly string[] _ways;

    private PriceWords(Phrasebook book, StepTexts steps, NumberFormatInfo numbers, string[] ways) => (Book, _steps, _numbers, _ways) = (book, steps, numbers, ways);

    /// <summary>English.</summary>
    public static PriceWords English { get; } = new(
        Phrasebook.English, StepTexts.English, new() { NumberGroupSeparator = ",", NumberDecimalSeparator = "." }, ["mend here", "mend here and remake the suspicious joints", "renew the stretch", "renew all"])
    {
        Travel = "Travel",
        Visit = "visit",
        Hour = "h",
        Piece = "pc",
        Parts = "Parts: {0}",
        Reason = "Cheapest over {0} years: {1}. It costs {2} now and about {3} in all ({4} to {5} in nine of ten), at {6} faults a year.",
        History = "Reckoned from {0} fault(s) in {1} years on this loop and from what is stated of loops like it.",
    };

    /// <summary>German.</summary>
    public static PriceWords German { get; } = new(
        Phrasebook.German, StepTexts.German, new() { NumberGroupSeparator = ".", NumberDecimalSeparator = "," }, ["hier reparieren", "hier reparieren und die verdächtigen Verbinder erneuern", "das Stück erneuern", "alles erneuern"])
    {
        Travel = "Anfahrt",
        Visit = "Besuch",
        Hour = "Std.",
        Piece = "Stk.",
        Parts = "Material: {0}",
        Reason = "Am günstigsten über {0} Jahre: {1}. Kostet jetzt {2} und insgesamt etwa {3} ({4} bis {5} in neun von zehn Fällen), bei {6} Fehlern im Jahr.",
        History = "Gerechnet mit {0} Fehler(n) in {1} Jahren an dieser Schleife und dem, was für Schleifen wie diese angenommen ist.",
    };

    /// <summary>The phrasebook of the language.</summary>
    public Phrasebook Book { get; private init; }

    /// <summary>Travel of one visit.</summary>
    public required string Travel { get; init; }

    /// <summary>The unit of travel.</summary>
    public required string Visit { get; init; }

    /// <summary>Hours.</summary>
    public required string Hour { get; init; }

    /// <summary>Pieces.</summary>
    public required string Piece { get; init; }

    private string Parts { get; init; } = "";

    private string Reason { get; init; } = "";

    private string History { get; init; } = "";

    /// <summary>The same words with lengths in feet.</summary>
    public PriceWords InFeet() => new(Book.InFeet(), _steps, _numbers, _ways)
    {
        Travel = Travel,
        Visit = Visit,
        Hour = Hour,
        Piece = Piece,
        Parts = Parts,
        Reason = Reason,
        History = History,
    };

    /// <summary>A step with its place.</summary>
    public string Named(Step step, Yard yard) => StepWords.Place(step, yard, Book) is { } place
        ? Book.Say(Phrase.WithPlace, _steps[step.Kind].Title, place)
        : _steps[step.Kind].Title;

    /// <summary>Parts of a step.</summary>
    public string PartsFor(string step) => string.Format(CultureInfo.InvariantCulture, Parts, step);

    /// <summary>What a way is called.</summary>
    public string Of(RepairWay way) => _ways[(int)way];

    /// <summary>Money with its currency: thousands apart, at least two decimals unless the smallest amount is whole.</summary>
    public string Money(decimal amount, PriceSettings settings) =>
        $"{amount.ToString(settings.LineStep % 1 == 0 ? "#,0" : "#,0.00", _numbers)} {PlaceWords.OneLine(settings.Currency)}";

    /// <summary>A number.</summary>
    public string Number(decimal value) => value.ToString("0.##", _numbers);

    /// <summary>Why a way is the cheapest, in a sentence with its band.</summary>
    public string Why(MendOrRenew quote)
    {
        RepairOption best = quote.Cheapest;
        PriceSettings settings = best.Now.Settings;
        return string.Format(CultureInfo.InvariantCulture, Reason, MendOrRenew.Years, Of(best.Way), Money(best.Now.Total, settings), Money(Whole(best.Expected), settings),
            Money(Whole(best.Low), settings), Money(Whole(best.High), settings), Number(Math.Round((decimal)best.FaultsPerYear, 2)));
    }

    /// <summary>What the reckoning rests on.</summary>
    public string RestsOn(MendOrRenew quote) => string.Format(CultureInfo.InvariantCulture, History, quote.History.Faults, Number((decimal)quote.History.Years));

    /// <summary>An expected sum to whole units: more would pretend.</summary>
    public static decimal Whole(decimal amount) => Math.Round(amount, 0, MidpointRounding.AwayFromZero);
}
