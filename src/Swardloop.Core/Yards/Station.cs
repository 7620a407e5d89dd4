namespace Swardloop.Core.Yards;

/// <summary>The signal source, seen from the loop: an open-circuit amplitude behind a resistance.</summary>
public sealed record Station
{
    /// <summary>Source resistance R0 (Ω). Default 107: the default profile, common practice, no source.</summary>
    public double SourceOhms { get; init; } = 107;

    /// <summary>One standard deviation of <see cref="SourceOhms"/>, as a share of it. Default 0.15.</summary>
    public double SourceRelativeDeviation { get; init; } = 0.15;

    /// <summary>Drive frequency (Hz). Default 10 kHz.</summary>
    public double FrequencyHertz { get; init; } = 10_000;

    /// <summary>Loop resistance at which the lamp shows alarm (Ω). Default 20 kΩ, common practice, no source.</summary>
    public double LampAlarmOhms { get; init; } = 20_000;

    /// <summary>Whether the station has a lamp for the loop at all.</summary>
    public bool HasContinuityLamp { get; init; } = true;
}
