namespace Swardloop.Core.Diagnosis.Tests;

/// <summary>Both ends pulled and looked at: a bad terminal shows more often than not; a sound one seldom looks bad. Judgement, no source.</summary>
internal static class TerminalLookTest
{
    /// <summary>Probability of what is seen.</summary>
    /// <param name="state">What is seen.</param>
    /// <param name="atTerminal">Whether the fault is a terminal's.</param>
    public static double Probability(TerminalState state, bool atTerminal) => (state, atTerminal) switch
    {
        (TerminalState.Sound, true) => 0.25,
        (TerminalState.Loose, true) => 0.4,
        (TerminalState.Corroded, true) => 0.35,
        (TerminalState.Sound, false) => 0.92,
        (TerminalState.Loose, false) => 0.03,
        _ => 0.05,
    };
}
