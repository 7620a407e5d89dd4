namespace Swardloop.Core.Diagnosis;

/// <summary>What no good technician does, whatever an estimate of costs says of it. Beside <see cref="StepSafety"/>, which forbids for safety's sake.</summary>
internal static class CommonSense
{
    /// <summary>From this probability of a cause that a look or a plug settles on, the loop need not be measured first.</summary>
    private const double PlainlyElsewhere = 0.7;

    /// <summary>From this probability on, whether the mower charges is asked before it is sent out.</summary>
    private const double ChargeIsDoubted = 0.1;

    /// <summary>From this probability of an unsteady contact on, what a mower or a lamp does is the moment's.</summary>
    private const double ComesAndGoes = 0.5;

    /// <summary>From this probability of a leak on, it is placed though nobody measured it.</summary>
    private const double LeaksPlainly = 0.5;

    /// <summary>Why a step would be foolish now; <see langword="null"/>: it is not.</summary>
    /// <param name="step">The step.</param>
    /// <param name="serviceCase">The case.</param>
    /// <param name="history">Its history.</param>
    /// <param name="now">What is believed now, as far as it matters here.</param>
    public static string? Speaks(Step step, ServiceCase serviceCase, CaseHistory history, in Standing now)
    {
        (double elsewhere, double mended) = (now.Elsewhere, now.Mended);
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

        if (step.Kind == StepKind.MowerStart && step.Place == StartPlace.MidLawn && history.MowerStaysAtStart)
        {
            return "what is not heard beside the wire is not heard far from it";
        }

        if (NeedsRunningMower(step.Kind) || step.Kind == StepKind.MowerStart)
        {
            if (!history.ChargeWasChecked && (history.MowerCannotBeStarted || now.Charging > ChargeIsDoubted))
            {
                return "a flat mower tells nothing";
            }

            if (history.CouldNotRunMower(step.By))
            {
                return "the mower could not be started";
            }

            if (now.Locked && !history.MakerWasAsked)
            {
                return "a locked mower does not run";
            }

            if (history.NothingOnTestLoop)
            {
                return "a mower that hears nothing on a test loop hears nothing on the lawn";
            }

            if (now.Unsteady > ComesAndGoes)
            {
                return "a contact that comes and goes answers by the moment";
            }
        }

        if (step.Kind == StepKind.StationLamp && now.Unsteady > ComesAndGoes && history.LoopWasMeasured)
        {
            return "a contact that comes and goes answers by the moment";
        }

        if (step.Kind is StepKind.EarthRatio or StepKind.EarthGradient && !history.EarthWasMeasured && now.Leaks < LeaksPlainly)
        {
            return "whether the wire leaks is measured first";
        }

        if (IsBoughtOnce(step.Kind) && history.Since(0).Any(seen => seen is Observation.RepairDone done && done.Repair == step.Kind))
        {
            return "that was done already";
        }

        if (step.Kind == StepKind.SubstituteLoop && history.AnotherMowerRuns)
        {
            return "another mower runs on this loop";
        }

        if (step.Kind == StepKind.OutletCheck && history.Lamp is LampState.Normal or LampState.Flicker or LampState.Alarm && elsewhere < 0.5)
        {
            return "the lamp is lit";
        }

        if (step.Kind == StepKind.SupplyVoltage && history.Lamp == LampState.Alarm && elsewhere < 0.5)
        {
            return "a station that sounds the alarm has power";
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

        if (history.LoopWasMeasured)
        {
            return null;
        }

        if (elsewhere > PlainlyElsewhere)
        {
            return TouchesWire(step.Kind) && step.Kind is not StepKind.RemakeTerminals ? "the cause is plainly elsewhere" : null;
        }

        bool ownerCan = serviceCase.Can.Owner && serviceCase.Can.OwnerInstruments.HasFlag(Instruments.Multimeter) && !history.Refused(StepKind.LoopResistance, Person.Owner);
        bool technicianCan = serviceCase.Can.Technician && serviceCase.Can.TechnicianInstruments.HasFlag(Instruments.Multimeter)
            && !history.Refused(StepKind.LoopResistance, Person.Technician);
        bool setsOut = step.By == Person.Technician && !history.OnSite;
        bool meterIsThere = history.OnSite ? technicianCan : ownerCan;
        return (setsOut && ownerCan)
            || (TouchesWire(step.Kind) && technicianCan && step.By == Person.Technician)
            || (meterIsThere && (NeedsRunningMower(step.Kind) || step.Kind is StepKind.SubstituteMower or StepKind.SubstituteLoop or StepKind.ChargeCheck))
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

    /// <summary>Whether a repair is made once: a part replaced, serviced or cleaned is not again the cause.</summary>
    private static bool IsBoughtOnce(StepKind kind) => kind is StepKind.ReplaceSupply or StepKind.ReplaceStation or StepKind.ServiceReceiver or StepKind.ServiceDrive
        or StepKind.ReplaceBattery or StepKind.CleanContacts or StepKind.RelayLayout or StepKind.RenewLoop or StepKind.RecodeStation;

    private static bool MayTechnician(StepKind kind, ServiceCase serviceCase) =>
        serviceCase.Can.Technician && serviceCase.Can.TechnicianInstruments.HasFlag(StepCatalogue.Of(kind).Needs);

    /// <summary>What is believed now, as far as common sense asks.</summary>
    /// <param name="Elsewhere">Probability of no power, a dead supply or station, swapped ends, or a mower that does not charge.</param>
    /// <param name="Mended">Probability that nothing is wrong any more.</param>
    /// <param name="Charging">Probability of a mower that does not charge.</param>
    /// <param name="Unsteady">Probability of a contact that comes and goes.</param>
    /// <param name="Leaks">Probability of leaks.</param>
    /// <param name="Locked">Whether the mower is said to be locked, or to show an error.</param>
    internal readonly record struct Standing(double Elsewhere, double Mended, double Charging, double Unsteady, double Leaks, bool Locked);
}
