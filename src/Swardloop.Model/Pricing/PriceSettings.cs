namespace Swardloop.Model.Pricing;

/// <summary>How halves are rounded.</summary>
public enum HalfRounding
{
    /// <summary>Away from zero: 0.005 becomes 0.01.</summary>
    Away,

    /// <summary>To the even neighbour: 0.005 becomes 0.00, 0.015 becomes 0.02.</summary>
    Even,
}

/// <summary>How a workshop reckons money. Immutable; values are taken as checked by <see cref="Check"/>.</summary>
public sealed record PriceSettings
{
    /// <summary>ISO 4217 code. Default EUR.</summary>
    public string Currency { get; init; } = "EUR";

    /// <summary>Tax on everything (per cent of the net price), 0 to 100. Default 0: none is shown.</summary>
    public decimal TaxPercent { get; init; }

    /// <summary>Whether prices hold the tax already; else it comes on top.</summary>
    public bool PricesIncludeTax { get; init; }

    /// <summary>Whether tax is rounded on every line, or once on the sum.</summary>
    public bool TaxPerLine { get; init; }

    /// <summary>Smallest amount on a line: 0.01 where the currency has cents, 1 where it has none. Above 0.</summary>
    public decimal LineStep { get; init; } = 0.01m;

    /// <summary>Smallest amount of what is paid: 0.05 or 1 where coins below are not in use. A multiple of <see cref="LineStep"/>.</summary>
    public decimal TotalStep { get; init; } = 0.01m;

    /// <summary>How halves are rounded.</summary>
    public HalfRounding Halves { get; init; }

    /// <summary>The nearest multiple of a step.</summary>
    public decimal Round(decimal amount, decimal step) =>
        Math.Round(amount / step, Halves == HalfRounding.Away ? MidpointRounding.AwayFromZero : MidpointRounding.ToEven) * step;

    /// <summary>Refuses settings that no sum can keep.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A tax outside 0 to 100 %, a step not above zero, or a total's step that is no multiple of the lines'.</exception>
    public PriceSettings Check()
    {
        ArgumentOutOfRangeException.ThrowIfNegative(TaxPercent, nameof(TaxPercent));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(TaxPercent, 100, nameof(TaxPercent));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(LineStep, nameof(LineStep));
        return TotalStep >= LineStep && TotalStep % LineStep == 0 ? this
            : throw new ArgumentOutOfRangeException(nameof(TotalStep), TotalStep, $"Needs a multiple of {LineStep}.");
    }
}
