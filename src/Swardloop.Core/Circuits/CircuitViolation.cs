namespace Swardloop.Core.Circuits;

/// <summary>One rule a network breaks.</summary>
/// <param name="Rule">Which rule.</param>
/// <param name="Where">The element or node it concerns, by name.</param>
/// <param name="Message">What is wrong, with the value.</param>
public sealed record CircuitViolation(CircuitRule Rule, string Where, string Message);
