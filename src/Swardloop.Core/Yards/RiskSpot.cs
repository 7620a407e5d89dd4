namespace Swardloop.Core.Yards;

/// <summary>A stretch of wire where damage is likelier.</summary>
/// <param name="FromMetres">Start along the wire (m).</param>
/// <param name="ToMetres">End along the wire (m).</param>
/// <param name="Kind">What is there: edging, drive, tree, digging.</param>
/// <param name="Weight">How many times likelier per metre than plain wire; above 0.</param>
public sealed record RiskSpot(double FromMetres, double ToMetres, string Kind, double Weight);
