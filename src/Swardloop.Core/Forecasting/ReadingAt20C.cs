namespace Swardloop.Core.Forecasting;

/// <summary>A reading taken to 20 °C, with what the forecast made of it.</summary>
public sealed record ReadingAt20C
{
    /// <summary>The reading as it was taken.</summary>
    public required LoopRecord Record { get; init; }

    /// <summary>The loop's resistance, leads taken off, its sound wire at 20 °C (Ω). What exceeds the sound wire is a contact, not copper, and is left as read.</summary>
    public required double OhmsAt20C { get; init; }

    /// <summary>One standard deviation of <see cref="OhmsAt20C"/> (Ω): meter, leads, temperature. Weather and the contact's own wandering come on top.</summary>
    public required double DeviationOhms { get; init; }

    /// <summary>The temperature it was taken from (°C).</summary>
    public required double TemperatureCelsius { get; init; }

    /// <summary>Whether that was measured; otherwise it is the ground's by date and latitude.</summary>
    public bool TemperatureMeasured => Record.TemperatureCelsius is not null;

    /// <summary>Whether the trend rests on it.</summary>
    public bool Used { get; init; } = true;

    /// <summary>Probability that it is simply wrong, or of another state of the loop, 0 to 1.</summary>
    public double OddProbability { get; init; }
}
