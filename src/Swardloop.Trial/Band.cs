namespace Swardloop.Trial;

/// <summary>From one value to another, in the unit of whatever it bounds.</summary>
/// <param name="Low">Lowest.</param>
/// <param name="High">Highest.</param>
public readonly record struct Band(double Low, double High);
