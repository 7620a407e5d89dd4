namespace Swardloop.Core.MowerRun;

/// <summary>How a mower drives. All figures: common practice, no source.</summary>
public sealed record MowerHabits
{
    /// <summary>Speed while it mows (m/s). Default 0.4.</summary>
    public double SpeedMetresPerSecond { get; init; } = 0.4;

    /// <summary>Width it cuts (m). Default 0.22.</summary>
    public double CutWidthMetres { get; init; } = 0.22;

    /// <summary>How long stopping, backing and turning takes (s). Default 5.</summary>
    public double TurnSeconds { get; init; } = 5;

    /// <summary>How far at most it rolls on past the place where it hears the wire behind it, or nothing (m); evenly from none to this. Default 0.2.</summary>
    public double MostOvershootMetres { get; init; } = 0.2;

    /// <summary>Turns in a row on one spot after which it gives up and waits for help. Default 30.</summary>
    public int TurnsUntilStuck { get; init; } = 30;

    /// <summary>How large such a spot is (m). Default 1.</summary>
    public double SpotMetres { get; init; } = 1;

    /// <summary>How far off the lawn, still hearing itself inside, it drives before somebody stops it (m). Default 1.</summary>
    public double MostAstrayMetres { get; init; } = 1;
}
