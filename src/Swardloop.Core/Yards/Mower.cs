namespace Swardloop.Core.Yards;

/// <summary>The receiver: it hears where T·|g| ≥ |Z|.</summary>
public sealed record Mower
{
    /// <summary>Reach constant T = V/Hth (Ω·m). Default 4581: the default profile, common practice, no source.</summary>
    public double ReachConstantOhmMetres { get; init; } = 4581;

    /// <summary>One standard deviation of <see cref="ReachConstantOhmMetres"/>, as a share of it. Default 0.15.</summary>
    public double ReachRelativeDeviation { get; init; } = 0.15;

    /// <summary>Height of the sensor above the grass roots (m). Default 0.07.</summary>
    public double SensorHeightMetres { get; init; } = 0.07;
}
