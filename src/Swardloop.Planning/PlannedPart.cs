namespace Swardloop.Planning;

/// <summary>Something to buy for a plan.</summary>
/// <param name="Name">What: <c>wire</c>, <c>joint</c>, <c>terminals</c>, <c>slot</c>.</param>
/// <param name="Quantity">How much.</param>
/// <param name="Unit"><c>m</c>, or <c>piece</c>.</param>
/// <param name="Cost">What it costs, in the workshop's currency.</param>
public sealed record PlannedPart(string Name, double Quantity, string Unit, double Cost);
