using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>The part of an advice that a trial judges.</summary>
/// <param name="Finished">Nothing is owed any more.</param>
/// <param name="Next">The step advised first; null when none is.</param>
/// <param name="Causes">Causes and probabilities, likeliest first.</param>
/// <param name="Location">The place believed, when one is.</param>
public sealed record TrialAdvice(bool Finished, Step? Next, IReadOnlyList<CauseProbability> Causes, FaultLocation? Location);
