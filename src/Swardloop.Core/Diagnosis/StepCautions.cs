namespace Swardloop.Core.Diagnosis;

/// <summary>The cautions that each step must carry. They follow from what a person touches in it; nothing outbids them.</summary>
public static class StepCautions
{
    private const StepTouches Reading = StepTouches.Outdoors | StepTouches.Wire | StepTouches.Probes | StepTouches.MowerParked;

    private const StepTouches ReadingToStake = Reading | StepTouches.Ground;

    private const StepTouches Running = StepTouches.Outdoors | StepTouches.MowerRunning;

    private const StepTouches Digging = StepTouches.Outdoors | StepTouches.Wire | StepTouches.MowerParked | StepTouches.Ground;

    /// <summary>The cautions of a step, gravest first; never empty.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in the catalogue.</exception>
    public static IReadOnlyList<Caution> Required(StepKind kind)
    {
        StepTouches touches = Touches(kind);
        return [.. Enum.GetValues<Caution>().Where(caution => (touches & AsksFor(caution)) != 0)];
    }

    /// <summary>Whether a caution is met once a visit and then holds until the visit ends, or until <see cref="Ends"/>.</summary>
    /// <remarks>Facts of the day and the place (thunder, services, fence), rules that ask nothing to be done ("never"), and what stays as it was left:
    /// a station unplugged, a mower isolated. What has to be done anew each time (prove the wire, limit the battery, clear the lawn) is agreed to anew.</remarks>
    public static bool HoldsForVisit(Caution caution) => OpensVisit(caution) || caution == Caution.StationUnplugged;

    /// <summary>Whether a caution is agreed to when a visit begins, whatever its first step is. Unplugging the station is not: some steps need it on.</summary>
    public static bool OpensVisit(Caution caution) => caution is Caution.NoThunder or Caution.MainsStayClosed or Caution.ProbesStayOutOfOutlets or Caution.LocateServices
        or Caution.NoLiveElectricFence or Caution.MowerIsolated;

    /// <summary>Whether doing a step ends what a caution of the visit had established: a mower that was run is no longer isolated; a station whose mains
    /// side was handled, or that drove the loop for a mower, is plugged in.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in the catalogue.</exception>
    public static bool Ends(StepKind done, Caution caution) => caution switch
    {
        Caution.MowerIsolated => (Touches(done) & (StepTouches.MowerRunning | StepTouches.MowerMayStart)) != 0,
        Caution.StationUnplugged => (Touches(done) & (StepTouches.MowerRunning | StepTouches.Mains)) != 0,
        _ => false,
    };

    /// <summary>The danger that a caution is about. Cautions of one danger may be agreed to together; those of two never.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It belongs to none.</exception>
    public static Danger Danger(Caution caution) => caution switch
    {
        Caution.NoThunder or Caution.LocateServices or Caution.NoLiveElectricFence => Diagnosis.Danger.Ground,
        Caution.ProveWireBeforeCutting => Diagnosis.Danger.Cutting,
        Caution.MainsStayClosed or Caution.DryHandsAtSwitchboard or Caution.ProbesStayOutOfOutlets or Caution.AllDisconnectedForTestVoltage or Caution.StationUnplugged
            or Caution.ExtraLowVoltageOnly or Caution.BatteryCurrentLimited or Caution.MeterOnVolts or Caution.SafetyIsolatedSupply => Diagnosis.Danger.Electricity,
        Caution.RunOnlyInsideLiveLoop or Caution.ClearOfRunningMower or Caution.MowerIsolated or Caution.CarryBladesAway or Caution.MowerBatteryOut => Diagnosis.Danger.Mower,
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "Is about no danger."),
    };

    /// <summary>What a person touches in a step. Whoever adds a step has to say.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in the catalogue.</exception>
    public static StepTouches Touches(StepKind kind) => kind switch
    {
        StepKind.OutletCheck or StepKind.StationLamp => StepTouches.Outdoors | StepTouches.Mains,
        StepKind.SupplyVoltage => StepTouches.Outdoors | StepTouches.Mains | StepTouches.Probes | StepTouches.LiveLowVoltage,
        StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing => Running,
        StepKind.MowerStart or StepKind.MowerCheck or StepKind.SubstituteMower => Running | StepTouches.MowerParked | StepTouches.MowerCarried,
        StepKind.SubstituteLoop => Running | StepTouches.Wire | StepTouches.MowerParked | StepTouches.MowerCarried,
        StepKind.NeighbourOff => Running | StepTouches.Mains | StepTouches.MowerParked,
        StepKind.Look => StepTouches.Outdoors | StepTouches.MowerParked,

        StepKind.TerminalLook or StepKind.SwapEnds => StepTouches.Outdoors | StepTouches.Wire | StepTouches.MowerParked,
        StepKind.ChargeCheck or StepKind.CleanContacts =>
            StepTouches.Outdoors | StepTouches.Mains | StepTouches.MowerParked | StepTouches.MowerCarried | StepTouches.MowerMayStart,
        StepKind.AskMaker => StepTouches.Outdoors | StepTouches.Mains | StepTouches.MowerParked,

        StepKind.LoopResistance or StepKind.GuideResistance => Reading,
        StepKind.EarthResistance or StepKind.EndCapacitance or StepKind.Reflection => ReadingToStake,
        StepKind.Insulation => ReadingToStake | StepTouches.TestVoltage | StepTouches.MowerCarried,
        StepKind.EarthRatio or StepKind.EarthGradient => ReadingToStake | StepTouches.Source | StepTouches.Battery | StepTouches.LiveLowVoltage,
        StepKind.ToneTrace => ReadingToStake | StepTouches.Source,
        StepKind.AcRatio => ReadingToStake | StepTouches.Source | StepTouches.LiveLowVoltage,
        StepKind.JointDrop => ReadingToStake | StepTouches.Source | StepTouches.Battery | StepTouches.LiveLowVoltage | StepTouches.CutsWire,
        StepKind.Wiggle => ReadingToStake,
        StepKind.SplitResistance or StepKind.Bypass or StepKind.PinProbe => ReadingToStake | StepTouches.CutsWire,

        StepKind.RestoreMains => StepTouches.Outdoors | StepTouches.Mains | StepTouches.Switchboard,
        StepKind.ReplaceSupply => StepTouches.Outdoors | StepTouches.Mains | StepTouches.SupplyChoice,
        StepKind.ReplaceStation => StepTouches.Outdoors | StepTouches.Mains | StepTouches.Wire | StepTouches.MowerParked,
        StepKind.RemakeTerminals => StepTouches.Outdoors | StepTouches.Wire | StepTouches.Probes | StepTouches.MowerParked,
        StepKind.RemakeJoint or StepKind.MendSpan => Digging | StepTouches.CutsWire | StepTouches.Probes,
        StepKind.RenewLoop => Digging | StepTouches.Probes | StepTouches.CutsWire,
        StepKind.RelayLayout => Digging | StepTouches.Probes | StepTouches.CutsWire | StepTouches.MowerRunning,
        StepKind.RecodeStation => Running | StepTouches.Mains | StepTouches.MowerParked,
        StepKind.ReplaceBattery => StepTouches.Outdoors | StepTouches.MowerParked | StepTouches.MowerCarried | StepTouches.MowerOpened | StepTouches.MowerMayStart,
        StepKind.ServiceReceiver or StepKind.ServiceDrive => Running | StepTouches.MowerParked | StepTouches.MowerCarried | StepTouches.MowerOpened,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a step of the catalogue."),
    };

    /// <summary>What has to be touched for a caution to be asked for: any of these.</summary>
    /// <exception cref="ArgumentOutOfRangeException">No step asks for it.</exception>
    public static StepTouches AsksFor(Caution caution) => caution switch
    {
        Caution.NoThunder => StepTouches.Outdoors | StepTouches.Wire,
        Caution.MainsStayClosed => StepTouches.Mains,
        Caution.DryHandsAtSwitchboard => StepTouches.Switchboard,
        Caution.ProbesStayOutOfOutlets => StepTouches.Probes,
        Caution.ProveWireBeforeCutting => StepTouches.CutsWire,
        Caution.LocateServices => StepTouches.Ground,
        Caution.NoLiveElectricFence => StepTouches.Wire | StepTouches.Ground,
        Caution.AllDisconnectedForTestVoltage => StepTouches.TestVoltage,
        Caution.StationUnplugged => StepTouches.Wire,
        Caution.RunOnlyInsideLiveLoop => StepTouches.MowerRunning,
        Caution.ClearOfRunningMower => StepTouches.MowerRunning | StepTouches.MowerMayStart,
        Caution.MowerIsolated => StepTouches.MowerParked | StepTouches.MowerCarried | StepTouches.MowerOpened,
        Caution.CarryBladesAway => StepTouches.MowerCarried,
        Caution.MowerBatteryOut => StepTouches.MowerOpened,
        Caution.ExtraLowVoltageOnly => StepTouches.Source,
        Caution.BatteryCurrentLimited => StepTouches.Battery,
        Caution.MeterOnVolts => StepTouches.LiveLowVoltage,
        Caution.SafetyIsolatedSupply => StepTouches.SupplyChoice,
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "No step asks for it."),
    };
}
