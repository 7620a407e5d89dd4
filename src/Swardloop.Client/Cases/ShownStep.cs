using Swardloop.Core.Diagnosis;

namespace Swardloop.Client.Cases;

/// <summary>A step as advised.</summary>
/// <param name="Step">The step.</param>
/// <param name="Minutes">How long it takes whoever does it (min).</param>
/// <param name="CostNow">What it costs now, in the case's currency.</param>
/// <param name="ExpectedCostToFinish">Expected cost from here to a running mower.</param>
/// <param name="Why">Why, in the language asked for.</param>
public sealed record ShownStep(Step Step, double Minutes, double CostNow, double ExpectedCostToFinish, string Why);
