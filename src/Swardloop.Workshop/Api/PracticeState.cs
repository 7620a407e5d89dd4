using System.Text.Json.Nodes;

namespace Swardloop.Workshop.Api;

/// <summary>A practice yard as far as it has gone: nothing of the truth until it is over.</summary>
/// <param name="Run">As the list shows it.</param>
/// <param name="Case">The case so far, <c>swardloop-case/1</c>, its yard inside.</param>
/// <param name="Turns">What was done.</param>
/// <param name="End">What was true, and how others would have gone; null until it is over.</param>
public sealed record PracticeState(PracticeEntry Run, JsonObject Case, IReadOnlyList<PracticeTurn> Turns, PracticeEnd? End);

/// <summary>One step that was done.</summary>
/// <param name="Step">Step, person and parameters, as an advice spells them.</param>
/// <param name="Seen">The observation that came of it.</param>
/// <param name="Money">Its minutes and parts in money, travel apart.</param>
/// <param name="Travel">Money for the way there, where this step began the visit.</param>
/// <param name="Minutes">Of whoever did it.</param>
/// <param name="Why">Why the advice chose it; null where nobody said.</param>
public sealed record PracticeTurn(JsonObject Step, JsonObject Seen, double Money, double Travel, double Minutes, string? Why);

/// <summary>How one of four went about the same yard.</summary>
/// <param name="Turns">Steps in order.</param>
/// <param name="Money">Spent, travel included.</param>
/// <param name="Minutes">Of whoever did the steps.</param>
/// <param name="Cured">Whether the mower ran in the end.</param>
/// <param name="Score">Money, and the printed card's on top where the mower was left broken.</param>
/// <param name="IsWhole">Whether the way is played to its end.</param>
public sealed record PracticeWay(IReadOnlyList<PracticeTurn> Turns, double Money, double Minutes, bool Cured, double Score, bool IsWhole);

/// <summary>Something that was wrong.</summary>
/// <param name="Cause">Its name.</param>
/// <param name="AtM">Where along the wire of the file from terminal A (m); null for what is not in the wire.</param>
/// <param name="OtherM">The other place of a pair (m).</param>
/// <param name="Wire">The guide wire that it is in; null for the loop.</param>
/// <param name="IsHarmful">Whether the mower minded it.</param>
public sealed record PracticeTruth(string Cause, double? AtM, double? OtherM, string? Wire, bool IsHarmful);

/// <summary>What is told when it is over.</summary>
/// <param name="World">The simulated world, as <c>swardloop trial --world</c> names it.</param>
/// <param name="Seed">The yard's seed there, as <c>--seed</c> takes it, with <c>--yard 0</c>.</param>
/// <param name="Truth">What was wrong.</param>
/// <param name="Left">Before the first step and after each: names that the causes then left may be given, in the words of an advice; empty when nothing is left.</param>
/// <param name="Learner">The learner's way.</param>
/// <param name="Card">By the printed card.</param>
/// <param name="Known">By somebody who knew cause and place.</param>
/// <param name="Engine">By the advice, as far as it was played.</param>
public sealed record PracticeEnd(
    string World, long Seed, IReadOnlyList<PracticeTruth> Truth, IReadOnlyList<IReadOnlyList<string>> Left,
    PracticeWay Learner, PracticeWay Card, PracticeWay Known, PracticeWay Engine);

/// <summary>Asks for a new practice yard.</summary>
/// <param name="Level">How hard.</param>
public sealed record NewPractice(PracticeLevel Level);

/// <summary>Asks for a step in a practice yard.</summary>
/// <param name="After">How many steps the page has seen: the same request again does nothing twice.</param>
/// <param name="Step">Step, person and parameters.</param>
public sealed record PracticeStep(int After, JsonObject Step);
