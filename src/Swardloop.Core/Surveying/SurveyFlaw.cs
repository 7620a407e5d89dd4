namespace Swardloop.Core.Surveying;

/// <summary>Why tapes do not make a plan.</summary>
/// <param name="Kind">What is amiss.</param>
/// <param name="Points">The points that are not settled, in the order in which they were first named.</param>
/// <param name="Suggested">A tape that would settle them, where one is known.</param>
public sealed record SurveyFlaw(SurveyFlawKind Kind, IReadOnlyList<string> Points, (string From, string To)? Suggested = null);
