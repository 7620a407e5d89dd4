using Swardloop.Core.Budget;
using Swardloop.Core.Yards;

namespace Swardloop.Core.Circuits;

/// <summary>The sound wire as a uniform line: what each metre of it resists, stores and leaks.</summary>
public readonly record struct WireLine
{
    /// <summary>Describes a wire.</summary>
    /// <param name="lengthMetres">Length from terminal A to terminal B (m), above 0.</param>
    /// <param name="ohmsPerMetre">Resistance (Ω/m), above 0, healthy joints included.</param>
    /// <param name="inductanceHenry">Inductance of the whole loop (H), 0 or more; spread evenly along it.</param>
    /// <param name="capacitanceFaradPerMetre">Capacitance to the soil (F/m), 0 or more; 0 leaves it out.</param>
    /// <param name="leakSiemensPerMetre">Leakage to the soil (S/m), 0 or more; 0 leaves it out.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public WireLine(
        double lengthMetres,
        double ohmsPerMetre,
        double inductanceHenry = 0,
        double capacitanceFaradPerMetre = 0,
        double leakSiemensPerMetre = WiringPractice.SoundWireLeakSiemensPerMetre)
    {
        Guard.Positive(lengthMetres);
        Guard.Positive(ohmsPerMetre);
        Guard.NotNegative(inductanceHenry);
        Guard.NotNegative(capacitanceFaradPerMetre);
        Guard.NotNegative(leakSiemensPerMetre);
        (LengthMetres, OhmsPerMetre, InductanceHenry, CapacitanceFaradPerMetre, LeakSiemensPerMetre) =
            (lengthMetres, ohmsPerMetre, inductanceHenry, capacitanceFaradPerMetre, leakSiemensPerMetre);
    }

    /// <summary>Length from terminal A to terminal B (m).</summary>
    public double LengthMetres { get; }

    /// <summary>Resistance (Ω/m).</summary>
    public double OhmsPerMetre { get; }

    /// <summary>Inductance of the whole loop (H).</summary>
    public double InductanceHenry { get; }

    /// <summary>Capacitance to the soil (F/m).</summary>
    public double CapacitanceFaradPerMetre { get; }

    /// <summary>Leakage to the soil (S/m).</summary>
    public double LeakSiemensPerMetre { get; }

    /// <summary>The wire of a yard as its budget expects it when healthy: mean resistance, joints spread evenly, and inductance.</summary>
    public static WireLine Of(Loop loop, LoopBudget budget) =>
        Of(loop, budget.MeanOhms / loop.LengthMetres, budget.InductanceHenry);

    /// <summary>The wire of a yard, given what its metres resist and its loop's inductance (both from the loop budget).</summary>
    /// <param name="loop">Where length and capacitance come from.</param>
    /// <param name="ohmsPerMetre">Resistance (Ω/m), above 0.</param>
    /// <param name="inductanceHenry">Inductance of the loop (H), 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static WireLine Of(Loop loop, double ohmsPerMetre, double inductanceHenry) =>
        new(loop.LengthMetres, ohmsPerMetre, inductanceHenry, loop.CapacitanceFaradPerMetre);
}
