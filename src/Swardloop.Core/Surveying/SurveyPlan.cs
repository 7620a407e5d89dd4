namespace Swardloop.Core.Surveying;

/// <summary>An adjusted survey.</summary>
public sealed record SurveyPlan
{
    /// <summary>A tape whose residual exceeds this many of its own standard deviations is called odd: one good tape in a thousand is.
    /// Source: Baarda, A testing procedure for use in geodetic networks, Netherlands Geodetic Commission 2(5), 1968 (from memory).</summary>
    public const double CriticalDeviations = 3.29;

    /// <summary>The taped points, in the order in which they were first named.</summary>
    public required IReadOnlyList<SurveyedPoint> Points { get; init; }

    /// <summary>For each tape: the distance of the adjusted points less what the tape read (m).</summary>
    public required IReadOnlyList<double> ResidualMetres { get; init; }

    /// <summary>For each tape: the least slip (m) that would have been noticed four times of five; <see langword="null"/> where nothing checks the tape.</summary>
    public required IReadOnlyList<double?> LeastSlipMetres { get; init; }

    /// <summary>Index of the tape that disagrees with the others; it is then left out of the places. <see langword="null"/>: none does, or it cannot be told which.</summary>
    public required int? Odd { get; init; }

    /// <summary>When tapes disagree and more than one may be the wrong one: those, likeliest first, a named one among them; else empty.</summary>
    public required IReadOnlyList<int> OddOneOf { get; init; }

    /// <summary>Sum of squared residuals, each over its variance, of the tapes used.</summary>
    public required double ChiSquare { get; init; }

    /// <summary>Tapes used beyond those needed.</summary>
    public required int Redundancy { get; init; }

    /// <summary>The tape to draw next; <see langword="null"/> when every pair of points is taped.</summary>
    public required NextTape? Next { get; init; }
}
