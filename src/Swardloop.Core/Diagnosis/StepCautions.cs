namespace Swardloop.Core.Diagnosis;

/// <summary>The cautions that each step must carry. They follow from what a person touches in it; nothing outbids them.</summary>
public static class StepCautions
{
    private const StepTouches Wire = StepTouches.Wire | StepTouches.MowerParked;

    /// <summary>The cautions of a step, gravest first; never empty.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not in the catalogue.</exception>
    public static IReadOnlyList<Caution> Required(StepKind kind)
    {
        StepTouches touches = Touches(kind);
        List<Caution> cautions = [];
        foreach (Caution caution in Enum.GetValues<Caution>())
        {
            if ((touches & AsksFor(caution)) != 0)
            {
                cautions.Add(caution);
            }
        }

        return cautions;
    }

    /// <summary>What a person touches in a step. Whoever adds a step has to say.</summary>
    private static StepTouches Touches(StepKind kind) => kind switch
    {
        StepKind.OutletCheck => StepTouches.Outdoors | StepTouches.Mains,
        StepKind.SupplyVoltage => StepTouches.Outdoors | StepTouches.Mains,
        StepKind.StationLamp => StepTouches.Outdoors | StepTouches.Mains,
        StepKind.MowerStart or StepKind.MowerReach or StepKind.FollowWire or StepKind.WireCrossing or StepKind.MowerCheck
            or StepKind.SubstituteMower => StepTouches.Outdoors | StepTouches.MowerParked | StepTouches.MowerRunning,
        StepKind.SubstituteLoop => Wire | StepTouches.MowerRunning,
        StepKind.NeighbourOff => StepTouches.Outdoors | StepTouches.Mains | StepTouches.MowerRunning,
        StepKind.Look => StepTouches.Outdoors | StepTouches.MowerParked,
        StepKind.TerminalLook or StepKind.SwapEnds => Wire,
        StepKind.ChargeCheck => StepTouches.Outdoors | StepTouches.Mains | StepTouches.MowerParked,

        StepKind.LoopResistance or StepKind.GuideResistance => Wire | StepTouches.Reading,
        StepKind.EarthResistance or StepKind.EndCapacitance or StepKind.Reflection => Wire | StepTouches.Reading | StepTouches.Ground,
        StepKind.Insulation => Wire | StepTouches.Reading | StepTouches.Ground | StepTouches.TestVoltage,
        StepKind.EarthRatio or StepKind.ToneTrace or StepKind.AcRatio or StepKind.EarthGradient or StepKind.JointDrop => Wire | StepTouches.Reading | StepTouches.Ground | StepTouches.Battery,
        StepKind.SplitResistance or StepKind.Bypass or StepKind.PinProbe or StepKind.Wiggle => Wire | StepTouches.Reading | StepTouches.Ground,

        StepKind.RestoreMains => StepTouches.Mains | StepTouches.Outdoors,
        StepKind.ReplaceSupply => StepTouches.Mains | StepTouches.Outdoors,
        StepKind.ReplaceStation => StepTouches.Mains | Wire,
        StepKind.RemakeTerminals => Wire,
        StepKind.RemakeJoint or StepKind.MendSpan or StepKind.RenewLoop or StepKind.RelayLayout => Wire | StepTouches.Ground,
        StepKind.RecodeStation => StepTouches.Mains | StepTouches.Outdoors | StepTouches.MowerRunning,
        StepKind.ServiceReceiver or StepKind.ServiceDrive or StepKind.ReplaceBattery => StepTouches.MowerParked,
        StepKind.CleanContacts => StepTouches.Mains | StepTouches.Outdoors | StepTouches.MowerParked,
        StepKind.AskMaker => StepTouches.Mains | StepTouches.Outdoors | StepTouches.MowerParked,
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a step of the catalogue."),
    };

    private static StepTouches AsksFor(Caution caution) => caution switch
    {
        Caution.NoThunder => StepTouches.Outdoors | StepTouches.Wire,
        Caution.MainsStayClosed => StepTouches.Mains,
        Caution.StationUnplugged => StepTouches.Wire,
        Caution.AllDisconnectedForTestVoltage => StepTouches.TestVoltage,
        Caution.NoLiveElectricFence => StepTouches.Reading,
        Caution.ExtraLowVoltageOnly => StepTouches.Battery,
        Caution.LocateServices => StepTouches.Ground,
        Caution.MowerIsolated => StepTouches.MowerParked,
        Caution.ClearOfRunningMower => StepTouches.MowerRunning,
        _ => throw new ArgumentOutOfRangeException(nameof(caution), caution, "No step asks for it."),
    };

    [Flags]
    private enum StepTouches
    {
        Outdoors = 1,
        Mains = 2,
        Wire = 4,
        Reading = 8,
        TestVoltage = 16,
        Battery = 32,
        Ground = 64,
        MowerParked = 128,
        MowerRunning = 256,
    }
}
