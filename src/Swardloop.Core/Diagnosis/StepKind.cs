namespace Swardloop.Core.Diagnosis;

/// <summary>Every test and repair of the catalogue. Their names in files are kebab-case: <c>loop-resistance</c>.</summary>
public enum StepKind
{
#pragma warning disable CS1591 // The catalogue (StepCatalogue, docs/steps.md) says what each one is.
    OutletCheck, SupplyVoltage, StationLamp, MowerStart, MowerReach, FollowWire, WireCrossing,
    LoopResistance, EarthResistance, Insulation, EarthRatio, EndCapacitance, SplitResistance,
    Bypass, ToneTrace, Reflection, Look, SubstituteLoop, SubstituteMower, NeighbourOff, MowerCheck,
    AcRatio, GuideResistance, JointDrop, PinProbe, EarthGradient, TerminalLook, Wiggle, ChargeCheck,
    RestoreMains, ReplaceSupply, ReplaceStation, RemakeTerminals, RemakeJoint, MendSpan, RenewLoop,
    RelayLayout, RecodeStation, ServiceReceiver, ServiceDrive,
    SwapEnds, CleanContacts, ReplaceBattery, AskMaker,
#pragma warning restore CS1591
}
