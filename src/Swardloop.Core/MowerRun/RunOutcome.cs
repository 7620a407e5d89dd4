namespace Swardloop.Core.MowerRun;

/// <summary>What many simulated runs on one yard came to: a statistical picture, no forecast of one afternoon.</summary>
public sealed record RunOutcome
{
    /// <summary>Mown share against hours, hours rising, the first of 0 h.</summary>
    public required IReadOnlyList<MownShare> Mown { get; init; }

    /// <summary>Where runs ended before their time, most frequent first.</summary>
    public required IReadOnlyList<StuckPlace> Stuck { get; init; }

    /// <summary>Number of runs.</summary>
    public required int Runs { get; init; }

    /// <summary>Legs of all runs together.</summary>
    public required long Legs { get; init; }

    /// <summary>Mean length of a leg, from turn to turn (m); 0 when there was none.</summary>
    public required double MeanLegMetres { get; init; }

    /// <summary>Share of legs that ended because nothing was heard, not at the wire or at something solid.</summary>
    public required double TurnedEarlyShare { get; init; }
}
