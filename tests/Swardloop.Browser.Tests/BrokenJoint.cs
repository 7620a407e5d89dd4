using System.Globalization;
using Swardloop.Core.Diagnosis;
using Swardloop.Model.Steps;

namespace Swardloop.Browser.Tests;

/// <summary>A loop that is clean open at one joint, as meters and eyes find it until the joint is made good: what a person would answer to any step.</summary>
/// <param name="lengthMetres">Length of the loop (m).</param>
/// <param name="atMetres">Where it is open, from A (m).</param>
/// <param name="loopOhms">What the whole loop measures (Ω).</param>
internal sealed class BrokenJoint(double lengthMetres, double atMetres, double loopOhms)
{
    private bool _isMended;

    /// <summary>What is typed or chosen in a field of a step's form; null to leave it empty.</summary>
    /// <param name="kind">The step.</param>
    /// <param name="field">The field.</param>
    /// <param name="from">Where the step is, or where its stretch starts, from A (m); null for none.</param>
    /// <param name="to">Where its stretch ends (m).</param>
    public string? Answer(StepKind kind, StepField field, double? from = null, double? to = null) => (kind, field.Name) switch
    {
        (_, "leadOhms") => "0.2",
        (StepKind.OutletCheck, _) => "live",
        (StepKind.SupplyVoltage, "nominalVolts") => "27",
        (StepKind.SupplyVoltage, "volts") => "27.2",
        (StepKind.StationLamp, _) => _isMended ? "normal" : "alarm",
        (StepKind.MowerStart, "place") => "at-wire",
        (StepKind.MowerStart, _) => _isMended ? "runs" : "no-signal",
        (StepKind.MowerReach, "distanceM") => _isMended ? "6" : "0",
        (StepKind.MowerReach, _) => _isMended ? "at-least" : "exact",
        (StepKind.FollowWire, _) => _isMended ? "steady" : "lost",
        (StepKind.WireCrossing, "value") => _isMended ? "respected" : "crossed",
        (StepKind.LoopResistance, "ohms") or (StepKind.Bypass, "ohms") => _isMended || (kind == StepKind.Bypass && from <= atMetres && to >= atMetres) ? Typed(loopOhms + 0.2) : "OL",
        (StepKind.EarthResistance, "ohms") => "OL",
        (StepKind.Insulation, "testVolts") => "500",
        (StepKind.Insulation, "megohms") => "300",
        (StepKind.EndCapacitance, "nanofaradA") => Typed(0.09 * (_isMended ? lengthMetres : atMetres)),
        (StepKind.EndCapacitance, "nanofaradB") => Typed(0.09 * (_isMended ? lengthMetres : lengthMetres - atMetres)),
        (StepKind.SplitResistance or StepKind.PinProbe, "ohmsA") => _isMended || from <= atMetres + 0.5 ? Typed(0.2 + (loopOhms * (from ?? 0) / lengthMetres)) : "OL",
        (StepKind.SplitResistance or StepKind.PinProbe, "ohmsB") => _isMended || from >= atMetres - 0.5 ? Typed(0.2 + (loopOhms * (1 - ((from ?? 0) / lengthMetres)))) : "OL",
        (StepKind.ToneTrace, "value") => _isMended || from < atMetres ? "strong" : "none",
        (StepKind.ToneTrace, "from") => "A",
        (StepKind.Reflection, "from") => "A",
        (StepKind.Reflection, "delayNs") => Typed(2 * atMetres / 0.18),
        (StepKind.Reflection, "kind") => _isMended ? "none" : "open",
        (StepKind.Look, _) => !_isMended && from <= atMetres && to >= atMetres ? "damage" : "nothing",
        (StepKind.JointDrop, "milliamps") => "0.1",
        (StepKind.JointDrop, "millivolts") => _isMended ? "0" : "8800",
        (StepKind.AcRatio, "voltsA") => Typed(1 - (atMetres / lengthMetres)),
        (StepKind.AcRatio, "voltsB") => Typed(atMetres / lengthMetres),
        (StepKind.SubstituteLoop or StepKind.SubstituteMower, _) => kind == StepKind.SubstituteLoop || _isMended ? "runs" : "no-signal",
        (StepKind.NeighbourOff, _) => "same",
        (StepKind.MowerCheck, _) => _isMended ? "runs" : "same",
        (StepKind.TerminalLook, _) => "sound",
        (StepKind.Wiggle, _) => "steady",
        (StepKind.ChargeCheck, _) => "charges",
        _ => null,
    };

    /// <summary>A step was done. A stretch mended, a joint made anew, or opened to measure and closed again with a new one, ends the fault when it is there:
    /// a joint is found within a metre and a half.</summary>
    public void Done(StepKind kind, double? from, double? to) =>
        _isMended |= kind == StepKind.RenewLoop || (kind is StepKind.MendSpan or StepKind.RemakeJoint or StepKind.SplitResistance
            && from is { } start && start - 1.5 <= atMetres && (to ?? start) + 1.5 >= atMetres);

    private static string Typed(double number) => Math.Round(number, 1).ToString("0.0", CultureInfo.InvariantCulture);
}
