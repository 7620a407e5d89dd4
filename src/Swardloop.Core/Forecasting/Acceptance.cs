using Swardloop.Core.Budget;
using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Forecasting;

/// <summary>A loop reading at 20 °C beside what a sound loop of this wire measures there: whether it can be a yard's baseline.</summary>
/// <param name="Reading">The reading, taken to 20 °C.</param>
/// <param name="Band">A sound loop at 20 °C (Ω).</param>
/// <param name="Verdict">Where the one lies beside the other.</param>
public sealed record Acceptance(ReadingAt20C Reading, ResistanceBand Band, AcceptanceVerdict Verdict)
{
    /// <summary>A reading lies outside when it is outside by more than so many of its standard deviations: 95 in 100 of a normal.</summary>
    public const double Deviations = 2;

    /// <summary>What a sound loop measures at 20 °C (Ω).</summary>
    /// <param name="yard">The yard.</param>
    public static ResistanceBand SoundAt20C(Yard yard) => LoopBudget.For(yard with { Soil = yard.Soil with { TemperatureCelsius = 20 } }).ExpectedOhms;

    /// <summary>Judges a reading.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="record">The reading.</param>
    public static Acceptance Judge(Yard yard, LoopRecord record)
    {
        ReadingAt20C reading = Forecaster.At20C(yard, record);
        ResistanceBand band = SoundAt20C(yard);
        double margin = Deviations * reading.DeviationOhms;
        return new(
            reading, band,
            reading.OhmsAt20C > band.High + margin ? AcceptanceVerdict.Above : reading.OhmsAt20C < band.Low - margin ? AcceptanceVerdict.Below : AcceptanceVerdict.Within);
    }
}

/// <summary>Where a reading lies beside what a sound loop measures.</summary>
public enum AcceptanceVerdict
{
    /// <summary>Within: signed, it is the yard's baseline.</summary>
    Within,

    /// <summary>Above: something adds resistance, and must not be taken for how this loop is.</summary>
    Above,

    /// <summary>Below what this wire can measure: another wire lies there than is written down, or two places touch.</summary>
    Below,
}
