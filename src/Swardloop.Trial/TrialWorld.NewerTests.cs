using Swardloop.Core.Diagnosis;

namespace Swardloop.Trial;

/// <summary>Tests answered by the wire's capacitance, by a needle, by the ground beside it and by a look at its ends.</summary>
public sealed partial class TrialWorld
{
    private const int CapacitancePieces = 200;

    /// <summary>Volts from each end to a stake: the wire's potential is the drop of one current along it, and its charge to earth adds up to nothing.
    /// Each tenth of the wire has its own capacitance, 3 % about the mean. These yards have no guide wires, which would hang on it too.</summary>
    private Observation.AcRatio AcRatio(Step step)
    {
        const double Hertz = 1000, ToneVolts = 8;
        double length = _loop.LengthMetres, reactance = 2 * Math.PI * Hertz * _physics.InductanceHenry;
        bool broken = double.IsInfinity(LoopOhms);
        System.Numerics.Complex total = broken ? System.Numerics.Complex.One : new System.Numerics.Complex(LoopOhms, reactance);
        System.Numerics.Complex DropTo(double at) => broken
            ? SeriesFaults.Count(fault => double.IsInfinity(fault.Ohms) && fault.AtMetres <= at) / (double)SeriesFaults.Count(fault => double.IsInfinity(fault.Ohms))
            : new System.Numerics.Complex(OhmsBetween(0, at, withTerminals: false), reactance * at / length) / total;
        System.Numerics.Complex sum = 0;
        double weights = 0;
        for (int i = 0; i < CapacitancePieces; i++)
        {
            double weight = 1 + (0.03 * _chance.Normal($"capacitance of tenth {i * 10 / CapacitancePieces}"));
            weights += weight;
            sum += weight * DropTo((i + 0.5) / CapacitancePieces * length);
        }

        System.Numerics.Complex earth = sum / weights;
        double Shown(double volts, string end) => Math.Round(ToneVolts * volts * (1 + (0.01 * Fresh(step, $"tone at {end}"))), 2);
        return new(Shown(earth.Magnitude, "A"), Shown((1 - earth).Magnitude, "B"), Hertz);
    }

    private Observation.PinProbe PinProbe(Step step)
    {
        double asked = step.AtMetres!.Value, at = Math.Clamp(Met(step, asked, "needle"), 0.1, _loop.LengthMetres - 0.1);
        double lead = Math.Round(_chance.Uniform("test lead", 0.4, 2.5), 1), trueLead = lead + _chance.Uniform("test lead error", -0.06, 0.06);
        double? Side(double from, double to, string side) => Read(
            step, Wandering(step, OhmsBetween(from, to, withTerminals: false), (to - from) * _habits.WireOhmsPerMetre) + trueLead + (0.2 * Math.Abs(Fresh(step, $"needle {side}")))).Shown;
        return new(asked, Side(0, at, "A"), Side(at, _loop.LengthMetres, "B"), lead);
    }

    private Observation JointDrop(Step step)
    {
        double at = JointAt(step.AtMetres!.Value) ?? step.AtMetres.Value, joint = _habits.JointOhms + SeriesFaults.Where(fault => fault.AtMetres == at).Sum(fault => fault.Ohms);
        double others = LoopOhms - joint, amperes = BatteryVolts / (LoopOhms + 10);
        if (!double.IsFinite(others) || !double.IsFinite(joint) || amperes < 1e-6)
        {
            return new Observation.NotDone(step);
        }

        return new Observation.JointDrop(step.AtMetres.Value, Math.Round(amperes * (1 + (0.01 * Fresh(step, "amperes"))), 6), Math.Round(amperes * joint * (1 + (0.01 * Fresh(step, "drop"))), 5));
    }

    /// <summary>Each leak is a point source at the wire's depth (references C3); along the wire for near ones, straight for far ones.</summary>
    private Observation.EarthGradient EarthGradient(Step step)
    {
        const double Depth = 0.05, GroundVolts = 0.4e-3;
        double at = step.AtMetres!.Value, spacing = step.SpacingMetres ?? 1, soil = _trial.Case.Yard.Soil.ResistivityOhmMetres, volts = 0, nearest = double.PositiveInfinity;
        foreach ((double leakAt, double ohms) in Leaks())
        {
            double amperes = BatteryVolts / (ohms + 200), along = leakAt - at;
            double Potential(double x) => soil * amperes / (2 * Math.PI * Math.Sqrt((x * x) + (Depth * Depth)));
            volts += Potential(along - (spacing / 2)) - Potential(along + (spacing / 2));
            nearest = Math.Min(nearest, Math.Abs(along));
        }

        double shown = volts + (GroundVolts * Fresh(step, "ground"));
        GradientOutcome outcome = nearest < 0.35 * spacing ? GradientOutcome.Here : Math.Abs(shown) < 2.5 * GroundVolts ? GradientOutcome.Nothing : shown > 0 ? GradientOutcome.Ahead : GradientOutcome.Behind;
        return new(at, spacing, outcome, Math.Round(Math.Abs(shown), 5));
    }

    private TerminalState LookAtTerminals(Step step)
    {
        bool bad = Remaining.Any(fault => fault.AtJoint && (fault.AtMetres == 0 || fault.AtMetres == _loop.LengthMetres));
        return bad ? Draw(step, (TerminalState.Corroded, 0.45), (TerminalState.Loose, 0.3), (TerminalState.Sound, 0.25))
            : Draw(step, (TerminalState.Sound, 0.93), (TerminalState.Corroded, 0.05), (TerminalState.Loose, 0.02));
    }
}
