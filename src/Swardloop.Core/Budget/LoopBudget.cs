using Swardloop.Core.Conductors;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Budget;

/// <summary>What a yard's loop measures when nothing is wrong with it, and what current it then carries.</summary>
public sealed record LoopBudget
{
    /// <summary>How far the wire's temperature may lie from the soil's stated one (K), two standard deviations. Common practice, no source.</summary>
    public const double TemperatureToleranceKelvin = 8;

    /// <summary>What the rule of thumb gives a metre of loop (Ω/m): one ohm per hundred metres. Common practice, no source.</summary>
    public const double RuleOfThumbOhmsPerMetre = 0.01;

    private LoopBudget()
    {
    }

    /// <summary>Length of wire from terminal to terminal (m).</summary>
    public required double LengthMetres { get; init; }

    /// <summary>One metre of the healthy wire at the soil's temperature (Ω/m), joints apart.</summary>
    public required ResistanceBand OhmsPerMetre { get; init; }

    /// <summary>All joints and both terminals together, healthy (Ω).</summary>
    public required ResistanceBand JointOhms { get; init; }

    /// <summary>The healthy loop between its terminals (Ω), d.c.</summary>
    /// <remarks>Nominal: the drawn length of the nominal conductor at the soil's temperature, and its joints. Low and high depart
    /// from it by the root of the summed squares of what conductor, length and temperature each can do to that side at their limits.
    /// About one healthy loop in twenty lies outside.</remarks>
    public required ResistanceBand ExpectedOhms { get; init; }

    /// <summary>Expectation of the healthy loop's resistance (Ω): for inference, a normal distribution of this mean and of
    /// <see cref="StandardDeviationOhms"/>.</summary>
    public required double MeanOhms { get; init; }

    /// <summary>One standard deviation of the healthy loop's resistance (Ω): conductor (three-point estimate; of one not known, the spread of all it may be), length (half the
    /// tolerance), temperature (half of 8 K), joints (three-point estimate each), added as independent.</summary>
    public required double StandardDeviationOhms { get; init; }

    /// <summary>The same as a share of <see cref="MeanOhms"/>: the deviation of a factor on all of the loop's resistance.</summary>
    public double RelativeDeviation => StandardDeviationOhms / MeanOhms;

    /// <summary>What the rule of thumb expects (Ω): about 1 Ω per 100 m. Common practice, no source.</summary>
    public double RuleOfThumbOhms => RuleOfThumbOhmsPerMetre * LengthMetres;

    /// <summary>Inductance of the loop (H), current spread evenly over the wire's section.</summary>
    public required double InductanceHenry { get; init; }

    /// <summary>Reactance of the loop at the station's frequency (Ω).</summary>
    public required double ReactanceOhms { get; init; }

    /// <summary>Resistance of the source that drives the loop (Ω).</summary>
    public required double SourceOhms { get; init; }

    /// <summary>Impedance that the source drives its current through, itself included, with the loop as it should be (Ω).</summary>
    public double ImpedanceOhms => ImpedanceAtOhms(ExpectedOhms.Nominal);

    /// <summary>The loop's current as a share of what the station gives into a short circuit: R0 / |Z|, 0 to 1.</summary>
    public double CurrentShare => SourceOhms / ImpedanceOhms;

    /// <summary>The budget of a yard's loop.</summary>
    /// <param name="yard">A checked yard.</param>
    /// <exception cref="ArgumentException">The conductor is not given in exactly one way, or the path has no length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value of the conductor, the soil or the loop outside its range.</exception>
    public static LoopBudget For(Yard yard)
    {
        Loop loop = yard.Loop;
        double length = loop.LengthMetres;
        Guard.Positive(length, nameof(yard));
        Guard.NotNegative(loop.LengthToleranceMetres, nameof(yard));
        Guard.Positive(yard.Station.SourceOhms, nameof(yard));
        Guard.NotNegative(yard.Station.FrequencyHertz, nameof(yard));

        double celsius = yard.Soil.TemperatureCelsius;
        ResistanceBand perMetre = loop.ConductorIsKnown ? ConductorResistance.OhmsPerMetre(loop.Conductor, celsius) : UnknownConductor.OhmsPerMetre(celsius);
        (double metreMean, double metreDeviation) = loop.ConductorIsKnown ? (perMetre.Mean, perMetre.StandardDeviation) : UnknownConductor.Moments(celsius);
        double perKelvin = MaterialData.TemperatureCoefficientPerKelvin(loop.Conductor.Material)
            / MaterialData.TemperatureFactor(loop.Conductor.Material, celsius);

        // Shares of the wire's resistance, at two standard deviations.
        double byLength = loop.LengthToleranceMetres / length, byTemperature = TemperatureToleranceKelvin * perKelvin;
        double common = (byLength * byLength) + (byTemperature * byTemperature);
        double thin = (perMetre.High / perMetre.Nominal) - 1, thick = 1 - (perMetre.Low / perMetre.Nominal);

        ResistanceBand joints = default;
        double jointMean = 0, jointVariance = 0;
        for (int i = 0; i < loop.Joints.Count + 2; i++)
        {
            ResistanceBand one = i < loop.Joints.Count ? JointResistance.HealthyOhms(loop.Joints[i].Style) : JointResistance.HealthyTerminalOhms;
            joints = new(joints.Low + one.Low, joints.Nominal + one.Nominal, joints.High + one.High);
            jointMean += one.Mean;
            jointVariance += one.StandardDeviation * one.StandardDeviation;
        }

        double wire = length * perMetre.Nominal, mean = length * metreMean;
        double conductorDeviation = length * metreDeviation;
        double inductance = Inductance.OfLoopHenry(loop.Path, ConductorResistance.RadiusMetres(loop.Conductor));
        return new()
        {
            LengthMetres = length,
            OhmsPerMetre = perMetre,
            JointOhms = joints,
            // A short loop of uncertain length still has some: the band's foot stops where no wire is left.
            ExpectedOhms = new(
                (wire * Math.Max(0, 1 - Math.Sqrt((thick * thick) + common))) + joints.Low,
                wire + joints.Nominal,
                (wire * (1 + Math.Sqrt((thin * thin) + common))) + joints.High),
            MeanOhms = mean + jointMean,
            StandardDeviationOhms = Math.Sqrt(
                (conductorDeviation * conductorDeviation) + (mean * mean * common / 4) + jointVariance),
            InductanceHenry = inductance,
            ReactanceOhms = 2 * Math.PI * yard.Station.FrequencyHertz * inductance,
            SourceOhms = yard.Station.SourceOhms,
        };
    }

    /// <summary>Impedance |Z| = √((R0 + R)² + (2πfL)²) with the loop's resistance taken to be R (Ω).</summary>
    /// <param name="loopOhms">R, the whole loop between its terminals (Ω), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Below 0, or not finite.</exception>
    public double ImpedanceAtOhms(double loopOhms)
    {
        Guard.NotNegative(loopOhms);
        double resistance = SourceOhms + loopOhms;
        return Math.Sqrt((resistance * resistance) + (ReactanceOhms * ReactanceOhms));
    }
}
