using Swardloop.Core.Yards;

namespace Swardloop.Core.Reach;

/// <summary>What turns a loop's resistance into the field per ampere that a mower needs: T·|g| ≥ |Z|.</summary>
/// <remarks>The station is seen from the loop as a source of fixed amplitude behind <see cref="SourceOhms"/>; the mower hears from a fixed field on.
/// Only the ratio <see cref="ReachConstantOhmMetres"/> of the two can be known from outside. Source: common practice, no source, for that picture of
/// station and mower; the impedance of resistance and inductance in series, textbook.</remarks>
public readonly record struct SignalBudget
{
    /// <summary>Sets up a budget.</summary>
    /// <param name="reachConstantOhmMetres">T = V/Hth (Ω·m), above zero.</param>
    /// <param name="sourceOhms">Source resistance R0 (Ω), zero or more.</param>
    /// <param name="reactanceOhms">The loop's reactance 2πfL (Ω), zero or more; zero neglects it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range or not finite.</exception>
    public SignalBudget(double reachConstantOhmMetres, double sourceOhms, double reactanceOhms)
    {
        Guard.Positive(reachConstantOhmMetres);
        Guard.NotNegative(sourceOhms);
        Guard.NotNegative(reactanceOhms);
        (ReachConstantOhmMetres, SourceOhms, ReactanceOhms) = (reachConstantOhmMetres, sourceOhms, reactanceOhms);
    }

    /// <summary>Sets up a yard's budget from its nominal profile.</summary>
    /// <param name="yard">The yard.</param>
    /// <param name="inductanceHenry">Its loop's inductance (H), zero or more; zero neglects the reactance.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range or not finite.</exception>
    public static SignalBudget Of(Yard yard, double inductanceHenry)
    {
        Guard.NotNegative(inductanceHenry);
        return new(yard.Mower.ReachConstantOhmMetres, yard.Station.SourceOhms,
            2 * Math.PI * yard.Station.FrequencyHertz * inductanceHenry);
    }

    /// <summary>Reach constant T = V/Hth (Ω·m).</summary>
    public double ReachConstantOhmMetres { get; }

    /// <summary>Source resistance R0 (Ω).</summary>
    public double SourceOhms { get; }

    /// <summary>Reactance of the loop at the drive frequency (Ω).</summary>
    public double ReactanceOhms { get; }

    /// <summary>|Z| (Ω) of station and loop together.</summary>
    /// <param name="loopOhms">Loop resistance (Ω), zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double ImpedanceOhms(double loopOhms)
    {
        Guard.NotNegative(loopOhms);
        double resistance = SourceOhms + loopOhms;
        return Math.Sqrt((resistance * resistance) + (ReactanceOhms * ReactanceOhms));
    }

    /// <summary>The field per ampere (1/m) from which on the mower hears.</summary>
    /// <inheritdoc cref="ImpedanceOhms" path="/param"/>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public double RequiredFieldPerAmpere(double loopOhms) => ImpedanceOhms(loopOhms) / ReachConstantOhmMetres;

    /// <summary>How far a field lies above what the mower needs (dB, 20·log10); negative where it falls short, −∞ for no field at all.</summary>
    /// <param name="fieldPerAmpere">Field per ampere (1/m); its sign does not matter.</param>
    /// <param name="loopOhms">Loop resistance (Ω), zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or a negative resistance.</exception>
    public double MarginDecibels(double fieldPerAmpere, double loopOhms)
    {
        Guard.Finite(fieldPerAmpere);
        return 20 * Math.Log10(Math.Abs(fieldPerAmpere) / RequiredFieldPerAmpere(loopOhms));
    }

    /// <summary>The largest loop resistance (Ω) at which a field is still heard: √((T·|g|)² − X²) − R0.</summary>
    /// <param name="fieldPerAmpere">Field per ampere (1/m); its sign does not matter.</param>
    /// <returns>The limit (Ω); negative when even a loop without resistance would not be heard there because of R0;
    /// <see langword="null"/> when the reactance alone is too much.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite.</exception>
    public double? LimitOhms(double fieldPerAmpere)
    {
        Guard.Finite(fieldPerAmpere);
        double most = ReachConstantOhmMetres * Math.Abs(fieldPerAmpere);
        return most >= ReactanceOhms
            ? Math.Sqrt((most - ReactanceOhms) * (most + ReactanceOhms)) - SourceOhms
            : null;
    }

    /// <summary>Series resistance (Ω) that a loop may gain before a field falls silent; negative when it already is.</summary>
    /// <param name="fieldPerAmpere">Field per ampere (1/m); its sign does not matter.</param>
    /// <param name="expectedOhms">What the loop has without it (Ω), zero or more.</param>
    /// <returns>The spare (Ω), or <see langword="null"/> when no resistance, however small, would do.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or a negative resistance.</exception>
    public double? OhmsToSpare(double fieldPerAmpere, double expectedOhms)
    {
        Guard.NotNegative(expectedOhms);
        return LimitOhms(fieldPerAmpere) - expectedOhms;
    }
}
