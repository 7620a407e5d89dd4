namespace Swardloop.Model.Pricing;

/// <summary>One line of a quote or bill, not yet rounded.</summary>
/// <param name="Text">What it is for, in the document's language.</param>
/// <param name="Quantity">How much.</param>
/// <param name="Unit">Of what: h, m, piece, visit, in the document's language.</param>
/// <param name="UnitPrice">Price of one, net or gross as the settings say.</param>
public sealed record PriceLine(string Text, decimal Quantity, string Unit, decimal UnitPrice);

/// <summary>A line with its rounded money.</summary>
/// <param name="Line">What it is for.</param>
/// <param name="Amount">Its amount, net or gross as the settings say.</param>
/// <param name="Tax">The tax in or on it, where tax is reckoned line by line; else null.</param>
public sealed record PricedLine(PriceLine Line, decimal Amount, decimal? Tax);
