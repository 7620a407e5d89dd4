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

    /// <summary>From this probability of nothing being wrong on, the mower is let mow though nothing was changed.</summary>
    private const double SeemsSound = 0.3;

    /// <summary>From this probability of a leak on, it is placed though nobody measured it.</summary>
    private const double LeaksPlainly = 0.5;

    /// <summary>Why a step would be foolish now; <see langword="null"/>: it is not.</summary>
    /// <param name="step">The step.</param>
    /// <param name="serviceCase">The case.</param>
    /// <param name="history">Its history.</param>
    /// <param name="now">What is believed now, as far as it matters here.</param>
    public static string? Speaks(Step step, ServiceCase serviceCase, CaseHistory history, in Standing now) =>
        OfTheMower(step, serviceCase, history, now) ?? OfPower(step, history, now) ?? OfOrder(step, serviceCase, history, now) ?? OfTheLoop(step, serviceCase, history, now);

    /// <summary>No mower is sent out that cannot hear, cannot run, or whose answer would be the moment's.</summary>
    private static string? OfTheMower(Step step, ServiceCase serviceCase, CaseHistory history, in Standing now)
    {
        bool runs = NeedsRunningMower(step.Kind);
        return NeedsSignal(step.Kind) && !history.SignalMayBeThere ? "no signal can be there"
            : !runs && step.Kind != StepKind.MowerStart ? null
            : runs && !history.LampWasSeen && !history.SignalWasHeard && serviceCase.Yard.Station.HasContinuityLamp ? "the lamp is looked at before a mower is sent out"
            : history.MowerStaysAtStart && (runs || step.Place == StartPlace.MidLawn) ? "what is not heard beside the wire is not heard far from it"
            : !history.ChargeWasChecked && (history.MowerCannotBeStarted || now.Charging > ChargeIsDoubted) ? "a flat mower tells nothing"
            : history.CouldNotRunMower(step.By) ? "the mower could not be started"
            : now.Locked && !history.WasDone(StepKind.AskMaker) ? "a locked mower does not run"
            : history.NothingOnTestLoop ? "a mower that hears nothing on a test loop hears nothing on the lawn"
            : now.Unsteady > ComesAndGoes ? "a contact that comes and goes answers by the moment"
            : null;
    }

    /// <summary>What the lamp has said of power, and what it would say now.</summary>
    private static string? OfPower(Step step, CaseHistory history, in Standing now) => step.Kind switch
    {
        StepKind.StationLamp when now.Unsteady > ComesAndGoes && history.LoopWasMeasured => "a contact that comes and goes answers by the moment",
        StepKind.OutletCheck when history.Lamp is LampState.Normal or LampState.Flicker or LampState.Alarm && now.Elsewhere < 0.5 => "the lamp is lit",
        StepKind.SupplyVoltage when history.Lamp == LampState.Alarm && now.Elsewhere < 0.5 => "a station that sounds the alarm has power",
        StepKind.ChargeCheck when !history.LampWasSeen || history.LampIsOff => "the lamp tells of power sooner",
        _ => history.LampIsOff && now.Elsewhere > 0.5 && (TouchesWire(step.Kind) || step.Kind == StepKind.LoopResistance) ? "a dark station is a matter of power first" : null,
    };

    /// <summary>What comes after something else, or was had already.</summary>
    private static string? OfOrder(Step step, ServiceCase serviceCase, CaseHistory history, in Standing now)
    {
        bool isCheck = step.Kind == StepKind.MowerCheck;
        return step.Kind is StepKind.EarthRatio or StepKind.EarthGradient && !history.EarthWasMeasured && now.Leaks < LeaksPlainly ? "whether the wire leaks is measured first"
            : IsBoughtOnce(step.Kind) && history.WasDone(step.Kind) ? "that was done already"
            : step.Kind is StepKind.CleanContacts or StepKind.ReplaceBattery && !history.ChargeWasChecked && MayBeCheckedForCharge(serviceCase, history) ? "whether it charges is seen first"
            : step.Kind == StepKind.SubstituteLoop && history.AnotherMowerRuns ? "another mower runs on this loop"
            : !isCheck && history.ChangedUnchecked && now.Mended > 0.3 && SymptomModel.Covers(step.Kind) ? "after a repair the mower itself says whether it runs"
            : !isCheck && step.Kind != StepKind.LoopResistance && history.FoundUnchecked && history.SignalMayBeThere && now.Mended > 0.1 ? "a fault was found and mended: first the mower says whether that was it"
            : isCheck && !history.ChangedUnchecked && (history.MowerWasChecked || now.NothingWrong < SeemsSound) ? "nothing was changed since the mower was last tried"
            : history.OnSite && step.By == Person.Owner && MayTechnician(step.Kind, serviceCase) ? "the technician stands there and is quicker"
            : null;
    }

    /// <summary>The loop is measured before anything is opened, dug, driven to or tried at length; unless the cause is plainly elsewhere, when the wire is left alone.</summary>
    private static string? OfTheLoop(Step step, ServiceCase serviceCase, CaseHistory history, in Standing now)
    {
        if (history.LoopWasMeasured)
        {
            return null;
        }

        if (now.Elsewhere > PlainlyElsewhere)
        {
            return TouchesWire(step.Kind) && step.Kind is not StepKind.RemakeTerminals ? "the cause is plainly elsewhere" : null;
        }

        bool ownerCan = serviceCase.Can.Owner && serviceCase.Can.OwnerInstruments.HasFlag(Instruments.Multimeter) && !history.Refused(StepKind.LoopResistance, Person.Owner);
        bool technicianCan = MayTechnician(StepKind.LoopResistance, serviceCase) && !history.Refused(StepKind.LoopResistance, Person.Technician);
        bool setsOut = step.By == Person.Technician && !history.OnSite;
        bool meterIsThere = history.OnSite ? technicianCan : ownerCan;
        return (setsOut && ownerCan)
            || (TouchesWire(step.Kind) && technicianCan && step.By == Person.Technician)
            || (meterIsThere && (NeedsRunningMower(step.Kind) || step.Kind is StepKind.SubstituteMower or StepKind.SubstituteLoop or StepKind.ChargeCheck))
            ? "the loop is measured first" : null;
    }

    private static bool MayBeCheckedForCharge(ServiceCase serviceCase, CaseHistory history)
    {
        bool owner = serviceCase.Can.Owner && !history.Refused(StepKind.ChargeCheck, Person.Owner), technician = MayTechnician(StepKind.ChargeCheck, serviceCase);
        return history.LampWasSeen && !history.LampIsOff && (history.OnSite && technician ? !history.Refused(StepKind.ChargeCheck, Person.Technician) : owner);
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
    /// <param name="NothingWrong">Probability that nothing is wrong, be it that it is mended or that it never was.</param>
    /// <param name="Locked">Whether the mower is said to be locked, or to show an error.</param>
    internal readonly record struct Standing(double Elsewhere, double Mended, double Charging, double Unsteady, double Leaks, double NothingWrong, bool Locked);
}
