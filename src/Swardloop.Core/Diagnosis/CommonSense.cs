namespace Swardloop.Core.Diagnosis;

/// <summary>What no good technician does, whatever an estimate of costs says of it. Beside <see cref="StepSafety"/>, which forbids for safety's sake.</summary>
internal static class CommonSense
{
    /// <summary>From this probability of a cause that a look or a plug settles on, the loop need not be measured first.</summary>
    private const double PlainlyElsewhere = 0.7;

    /// <summary>Why a step would be foolish now; <see langword="null"/>: it is not.</summary>
    /// <param name="step">The step.</param>
    /// <param name="serviceCase">The case.</param>
    /// <param name="history">Its history.</param>
    /// <param name="elsewhere">Probability of no power, a dead supply or station, or swapped ends.</param>
    /// <param name="mended">Probability that nothing is wrong any more.</param>
    public static string? Speaks(Step step, ServiceCase serviceCase, CaseHistory history, double elsewhere, double mended)
    {
        if (NeedsSignal(step.Kind) && !history.SignalMayBeThere)
        {
            return "no signal can be there";
        }

        if (NeedsRunningMower(step.Kind) && !history.LampWasSeen && serviceCase.Yard.Station.HasContinuityLamp)
        {
            return "the lamp is looked at before a mower is sent out";
        }

        if (NeedsRunningMower(step.Kind) && history.MowerStaysAtStart)
        {
            return "the mower does not run where it was started";
        }

        if (step.Kind == StepKind.ChargeCheck && (!history.LampWasSeen || history.LampIsOff))
        {
            return "the lamp tells of power sooner";
        }

        if (history.LampIsOff && elsewhere > 0.5 && (TouchesWire(step.Kind) || step.Kind == StepKind.LoopResistance))
        {
            return "a dark station is a matter of power first";
        }

        if (history.ChangedUnchecked && mended > 0.3 && SymptomModel.Covers(step.Kind) && step.Kind != StepKind.MowerCheck)
        {
            return "after a repair the mower itself says whether it runs";
        }

        if (step.Kind == StepKind.MowerCheck && !history.ChangedUnchecked)
        {
            return "nothing was changed since the mower was last tried";
        }

        if (history.OnSite && step.By == Person.Owner && MayTechnician(step.Kind, serviceCase))
        {
            return "the technician stands there and is quicker";
        }

        if (history.LoopWasMeasured || elsewhere > PlainlyElsewhere)
        {
            return null;
        }

        bool ownerCan = serviceCase.Can.Owner && serviceCase.Can.OwnerInstruments.HasFlag(Instruments.Multimeter) && !history.Refused(StepKind.LoopResistance, Person.Owner);
        bool technicianCan = serviceCase.Can.Technician && serviceCase.Can.TechnicianInstruments.HasFlag(Instruments.Multimeter)
            && !history.Refused(StepKind.LoopResistance, Person.Technician);
        bool setsOut = step.By == Person.Technician && !history.OnSite;
        bool meterIsThere = history.OnSite ? technicianCan : ownerCan;
        return (setsOut && ownerCan)
            || (TouchesWire(step.Kind) && technicianCan && step.By == Person.Technician)
            || (meterIsThere && (NeedsRunningMower(step.Kind) || step.Kind is StepKind.SubstituteMower or StepKind.ChargeCheck))
            ? "the loop is measured first" : null;
    }

    /// <summary>Whether a step needs a mower that could hear a signal.</summary>
    public static bool NeedsSignal(StepKind kind) => kind is StepKind.MowerStart or StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing
        or StepKind.SubstituteMower or StepKind.NeighbourOff;

    /// <summary>Whether a mower is let loose on the lawn for it.</summary>
    public static bool NeedsRunningMower(StepKind kind) => kind is StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing;

    /// <summary>Whether a step opens, cuts, digs for, bridges or searches the wire.</summary>
    public static bool TouchesWire(StepKind kind) => kind is StepKind.SplitResistance or StepKind.Bypass or StepKind.RemakeJoint or StepKind.RemakeTerminals
        or StepKind.MendSpan or StepKind.RenewLoop or StepKind.RelayLayout or StepKind.EarthRatio or StepKind.EndCapacitance or StepKind.ToneTrace
        or StepKind.Reflection or StepKind.Look or StepKind.AcRatio or StepKind.PinProbe or StepKind.JointDrop or StepKind.EarthGradient or StepKind.Wiggle
        or StepKind.EarthResistance or StepKind.Insulation;

    private static bool MayTechnician(StepKind kind, ServiceCase serviceCase) =>
        serviceCase.Can.Technician && serviceCase.Can.TechnicianInstruments.HasFlag(StepCatalogue.Of(kind).Needs);
}
