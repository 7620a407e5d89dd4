namespace Swardloop.Core.Reach;

/// <summary>How far from the wire a mower runs.</summary>
/// <param name="Metres">Distance from the nearest wire (m): where it falls silent or, when it covers everything, the farthest there is on this lawn.</param>
/// <param name="CoversEverything">Whether no place on the lawn is silent.</param>
public readonly record struct ReachDistance(double Metres, bool CoversEverything);
