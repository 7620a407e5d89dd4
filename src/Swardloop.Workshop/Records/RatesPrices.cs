using System.Globalization;
using Swardloop.Model.Pricing;

namespace Swardloop.Workshop.Records;

/// <summary>How a workshop reckons money, from its rates.</summary>
public static class RatesPrices
{
    /// <summary>Smallest amounts of what is paid.</summary>
    public static IReadOnlyList<string> TotalSteps { get; } = ["0.01", "0.05", "0.1", "0.5", "1"];

    /// <summary>Smallest amounts of a line: with cents, or without.</summary>
    public static IReadOnlyList<string> LineSteps { get; } = ["0.01", "1"];

    /// <summary>Where halves go.</summary>
    public static IReadOnlyList<string> HalfWords { get; } = ["away", "even"];

    /// <summary>Reads them; what is not set is as <see cref="PriceSettings"/> has it.</summary>
    /// <param name="rates">The rates; null for none.</param>
    /// <param name="currency">In what.</param>
    public static PriceSettings Of(RecordState? rates, string currency)
    {
        decimal line = Step(rates?.Text("roundLines")), total = Step(rates?.Text("roundTotal"));
        return new PriceSettings
        {
            Currency = currency,
            TaxPercent = (decimal)(rates?.Number("taxPercent") ?? 0),
            PricesIncludeTax = rates?.Flag("pricesIncludeTax") ?? false,
            TaxPerLine = rates?.Flag("taxPerLine") ?? false,
            LineStep = line,
            // Lines in whole units and a total in cents would be one and the same total.
            TotalStep = Math.Max(line, total),
            Halves = rates?.Text("roundHalves") == "even" ? HalfRounding.Even : HalfRounding.Away,
        }.Check();
    }

    private static decimal Step(string? word) => decimal.TryParse(word, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out decimal step) && step > 0 ? step : 0.01m;
}
