namespace Swardloop.Model.Pricing;

/// <summary>Lines with their sum: amounts of the lines add up to <see cref="Lines"/>' sum, and net, tax and rounding to the total, to the last unit, whatever the settings.</summary>
public sealed record PriceSum
{
    private PriceSum()
    {
    }

    /// <summary>How money was reckoned.</summary>
    public required PriceSettings Settings { get; init; }

    /// <summary>The lines.</summary>
    public required IReadOnlyList<PricedLine> Lines { get; init; }

    /// <summary>Without tax.</summary>
    public required decimal Net { get; init; }

    /// <summary>The tax.</summary>
    public required decimal Tax { get; init; }

    /// <summary>What rounding to the smallest coin adds, or takes away when negative.</summary>
    public required decimal Rounding { get; init; }

    /// <summary>What is paid: net, tax and rounding.</summary>
    public decimal Total => Net + Tax + Rounding;

    /// <summary>Adds lines up.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="settings">How.</param>
    /// <exception cref="ArgumentOutOfRangeException">Settings that no sum can keep.</exception>
    public static PriceSum Of(IEnumerable<PriceLine> lines, PriceSettings settings)
    {
        settings.Check();
        PricedLine[] priced = [.. lines.Select(line => Price(line, settings))];
        decimal amounts = priced.Sum(line => line.Amount);
        decimal tax = settings.TaxPerLine ? priced.Sum(line => line.Tax!.Value) : TaxOf(amounts, settings);
        decimal net = settings.PricesIncludeTax ? amounts - tax : amounts;
        return new()
        {
            Settings = settings,
            Lines = priced,
            Net = net,
            Tax = tax,
            Rounding = settings.Round(net + tax, settings.TotalStep) - (net + tax),
        };
    }

    private static PricedLine Price(PriceLine line, PriceSettings settings)
    {
        decimal amount = settings.Round(line.Quantity * line.UnitPrice, settings.LineStep);
        return new(line, amount, settings.TaxPerLine ? TaxOf(amount, settings) : null);
    }

    private static decimal TaxOf(decimal amount, PriceSettings settings) => settings.Round(
        settings.PricesIncludeTax ? amount * settings.TaxPercent / (100 + settings.TaxPercent) : amount * settings.TaxPercent / 100, settings.LineStep);
}
