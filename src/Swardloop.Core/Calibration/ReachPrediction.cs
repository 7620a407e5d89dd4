namespace Swardloop.Core.Calibration;

/// <summary>What a mower is expected to do with some other resistance in the loop.</summary>
/// <param name="LoopOhms">Resistance of the whole loop (Ω).</param>
/// <param name="DistanceMetres">How far from the nearest wire it runs (m), 90 % interval; the farthest place of the lawn where it covers everything.</param>
/// <param name="CoversProbability">How probable it is that it covers everything, 0 to 1.</param>
public sealed record ReachPrediction(double LoopOhms, Estimate DistanceMetres, double CoversProbability);

/// <summary>A trial that would teach most.</summary>
/// <param name="LoopOhms">Resistance of the whole loop to try (Ω).</param>
/// <param name="Bits">How much it is expected to narrow the belief about reach constant and source resistance: mutual information (bits).</param>
public sealed record SuggestedTrial(double LoopOhms, double Bits);
