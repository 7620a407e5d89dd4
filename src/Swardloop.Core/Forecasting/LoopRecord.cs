using Swardloop.Core.Diagnosis;

namespace Swardloop.Core.Forecasting;

/// <summary>One reading of a loop's resistance, as somebody took it.</summary>
/// <param name="At">The day.</param>
/// <param name="Ohms">What the meter showed (Ω), leads included, 0 or more.</param>
public sealed record LoopRecord(DateOnly At, double Ohms)
{
    /// <summary>What the meter showed with the leads' tips together (Ω). Default 0.2, common practice, no source.</summary>
    public double LeadOhms { get; init; } = 0.2;

    /// <summary>The ground's temperature where somebody measured it (°C); null: taken from the date.</summary>
    public double? TemperatureCelsius { get; init; }

    /// <summary>The meter's limits of error.</summary>
    public MeterAccuracy Meter { get; init; } = MeterAccuracy.Plain;

    /// <summary>The ground was wet.</summary>
    public bool Wet { get; init; }

    /// <summary>The ground was dry.</summary>
    public bool Dry { get; init; }

    /// <summary>The ground was frozen.</summary>
    public bool Frost { get; init; }

    /// <summary>The wire had just been moved: its contacts are not what they are in rest.</summary>
    public bool Moved { get; init; }

    /// <summary>Whether this reading begins another state of the loop, and why: what was read before it is of a loop that lies there no longer.</summary>
    public LoopBeginning Begins { get; init; }
}
