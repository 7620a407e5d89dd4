namespace Swardloop.Trial.CaseBook;

/// <summary>How one situation went.</summary>
/// <param name="Situation">Which.</param>
/// <param name="Failures">Each expectation that the advice did not meet, in words; none when it passed.</param>
/// <param name="Stance">What the book calls the first step: good, acceptable, or nothing where it lists no good ones or the step is on neither list.</param>
/// <param name="Causes">The likeliest causes that the advice named, as it told them.</param>
/// <param name="Next">Its first steps, each a line with doer, cost and reason.</param>
/// <param name="Played">The steps of a played dialogue, one line each.</param>
public sealed record Verdict(
    Situation Situation, IReadOnlyList<string> Failures, string? Stance, IReadOnlyList<string> Causes, IReadOnlyList<string> Next, IReadOnlyList<string> Played)
{
    /// <summary>Whether everything expected was met.</summary>
    public bool Passed => Failures.Count == 0;
}
