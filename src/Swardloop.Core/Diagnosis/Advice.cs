namespace Swardloop.Core.Diagnosis;

/// <summary>What is believed, why, and what to do next.</summary>
public sealed record Advice
{
    /// <summary>Causes, likeliest first; probabilities sum to 1.</summary>
    public required IReadOnlyList<CauseProbability> Causes { get; init; }

    /// <summary>Loop resistance above the healthy one (Ω), 90 % interval; null when nothing was measured.</summary>
    public Interval? ExcessOhms { get; init; }

    /// <summary>Where the fault lies, when a wire fault is believed.</summary>
    public FaultLocation? Location { get; init; }

    /// <summary>Probability of the fault's place along the wire, given a wire fault; empty when there is none.</summary>
    public required IReadOnlyList<DensityBin> Density { get; init; }

    /// <summary>What each observation said, in bits, per cause.</summary>
    public required IReadOnlyList<EvidenceWeight> Evidence { get; init; }

    /// <summary>What the owner's complaint said, in bits, per cause; empty when its words fit nothing.</summary>
    public IReadOnlyList<CauseBits> ComplaintBits { get; init; } = [];

    /// <summary>Steps, best first; empty only when finished.</summary>
    public required IReadOnlyList<AdvisedStep> Next { get; init; }

    /// <summary>The observation that contradicts the others, if one does.</summary>
    public Disagreement? Disagreement { get; init; }

    /// <summary>The mower runs and nothing is owed.</summary>
    public bool Finished { get; init; }
}

/// <summary>A cause and how probable it is.</summary>
public sealed record CauseProbability(Cause Cause, double Probability);

/// <summary>An interval and its median.</summary>
public sealed record Interval(double Low, double Median, double High);

/// <summary>Where a fault lies.</summary>
/// <param name="Cause">The cause meant.</param>
/// <param name="AtMetres">Likeliest place (m from A).</param>
/// <param name="LowMetres">Start of the credible interval.</param>
/// <param name="HighMetres">End of it.</param>
/// <param name="Credibility">Its probability, given the cause.</param>
public sealed record FaultLocation(Cause Cause, double AtMetres, double LowMetres, double HighMetres, double Credibility);

/// <summary>Probability that the fault lies in a stretch.</summary>
public sealed record DensityBin(double FromMetres, double ToMetres, double Probability);

/// <summary>What one observation said of each cause.</summary>
/// <param name="Observation">Its index in the case.</param>
/// <param name="Bits">Weight of evidence per cause: log2 of odds after over odds before.</param>
public sealed record EvidenceWeight(int Observation, IReadOnlyList<CauseBits> Bits);

/// <summary>Weight of evidence for one cause.</summary>
public sealed record CauseBits(Cause Cause, double Bits);

/// <summary>A step worth taking.</summary>
/// <param name="Step">The step and its parameters.</param>
/// <param name="Minutes">How long it takes whoever does it.</param>
/// <param name="CostNow">What it costs now, travel included when it starts a visit.</param>
/// <param name="ExpectedCostToFinish">Expected cost from here to a running mower, this step first.</param>
/// <param name="Reason">Why, as facts; the words are made where the language is known.</param>
public sealed record AdvisedStep(Step Step, double Minutes, double CostNow, double ExpectedCostToFinish, StepReason Reason);

/// <summary>Why a step is advised.</summary>
/// <param name="CureProbability">Chance that it ends the trouble; 0 for a pure test.</param>
/// <param name="TellsApart">Causes whose odds it moves most; empty when it only narrows the place.</param>
/// <param name="PlaceNarrowsFromMetres">Length of the 90 % interval of place before; null when place does not matter.</param>
/// <param name="PlaceNarrowsToMetres">Its expected length after.</param>
/// <param name="SavesMoney">Expected saving against the best way on without this step.</param>
public sealed record StepReason(
    double CureProbability,
    IReadOnlyList<Cause> TellsApart,
    double? PlaceNarrowsFromMetres,
    double? PlaceNarrowsToMetres,
    double SavesMoney)
{
    /// <summary>Why it is asked again; null where it was not asked yet.</summary>
    public AskedAgain? AsksAgain { get; init; }
}

/// <summary>Why a question is put once more.</summary>
public enum AskedAgain
{
    /// <summary>The first answer does not fit the rest.</summary>
    DoesNotFit,

    /// <summary>What comes and goes may be another way by now.</summary>
    MayHaveChanged,
}

/// <summary>A reading that contradicts the others.</summary>
/// <param name="Observation">Its index in the case.</param>
/// <param name="Repeat">The cheapest step that would settle it.</param>
public sealed record Disagreement(int Observation, Step Repeat);
