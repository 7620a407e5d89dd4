using System.Collections.Frozen;

namespace Swardloop.Core.Diagnosis;

/// <summary>The numbers of every step: time, parts, who, instruments. Defaults of the trade, no source; an owner takes twice as long.</summary>
public static class StepCatalogue
{
    private static readonly FrozenDictionary<StepKind, StepFacts> Facts = new StepFacts[]
    {
        new(StepKind.OutletCheck, 2) { OwnerMay = true },
        new(StepKind.SupplyVoltage, 4) { Needs = Instruments.Multimeter },
        new(StepKind.StationLamp, 1) { OwnerMay = true },
        new(StepKind.MowerStart, 3) { OwnerMay = true },
        new(StepKind.MowerReach, 5) { OwnerMay = true },
        new(StepKind.FollowWire, 6) { OwnerMay = true },
        new(StepKind.WireCrossing, 5) { OwnerMay = true },
        new(StepKind.LoopResistance, 5) { OwnerMay = true, Needs = Instruments.Multimeter },
        new(StepKind.EarthResistance, 6) { Needs = Instruments.Multimeter },
        new(StepKind.Insulation, 8) { Needs = Instruments.InsulationTester },
        new(StepKind.EarthRatio, 10) { Needs = Instruments.Battery | Instruments.Multimeter },
        new(StepKind.EndCapacitance, 8) { Needs = Instruments.CapacitanceMeter },
        new(StepKind.SplitResistance, 20) { Parts = 4, JointMinutes = 12, JointParts = 2, Needs = Instruments.Multimeter },
        new(StepKind.Bypass, 10) { MinutesPerMetre = 0.1, Needs = Instruments.Multimeter },
        new(StepKind.ToneTrace, 4) { Needs = Instruments.ToneSender },
        new(StepKind.Reflection, 6) { Needs = Instruments.Reflectometer },
        new(StepKind.Look, 0) { MinutesPerMetre = 0.3, LeastMinutes = 2, OwnerMay = true },
        new(StepKind.SubstituteLoop, 8),
        new(StepKind.SubstituteMower, 10),
        new(StepKind.NeighbourOff, 5) { OwnerMay = true },
        new(StepKind.MowerCheck, 5) { OwnerMay = true },
        new(StepKind.AcRatio, 10) { Needs = Instruments.ToneSender | Instruments.Multimeter },
        new(StepKind.GuideResistance, 6) { OwnerMay = true, Needs = Instruments.Multimeter },
        new(StepKind.JointDrop, 8) { Needs = Instruments.Battery | Instruments.Multimeter },
        new(StepKind.PinProbe, 8) { Parts = 1, Needs = Instruments.Multimeter },

        // A tone would drive the loop as well as a battery does; a set of instruments holds no "either, or", and every workshop has a battery.
        new(StepKind.EarthGradient, 4) { Needs = Instruments.Battery | Instruments.Multimeter },
        new(StepKind.TerminalLook, 3) { OwnerMay = true },
        new(StepKind.Wiggle, 5) { Needs = Instruments.Multimeter },
        new(StepKind.ChargeCheck, 3) { OwnerMay = true },
        new(StepKind.RestoreMains, 5) { OwnerMay = true, IsRepair = true },
        new(StepKind.ReplaceSupply, 5) { Parts = 60, IsRepair = true },
        new(StepKind.ReplaceStation, 15) { Parts = 180, IsRepair = true },
        new(StepKind.RemakeTerminals, 8) { Parts = 4, IsRepair = true },
        new(StepKind.RemakeJoint, 12) { Parts = 2, IsRepair = true },
        new(StepKind.MendSpan, 10) { MinutesPerMetre = 4, Parts = 4, PartsPerMetre = 0.5, IsRepair = true },
        new(StepKind.RenewLoop, 60) { MinutesPerMetre = 1.2, PartsPerMetre = 0.5, IsRepair = true },
        new(StepKind.RelayLayout, 120) { MinutesPerMetre = 1.5, PartsPerMetre = 0.5, IsRepair = true },
        new(StepKind.RecodeStation, 10) { IsRepair = true },
        new(StepKind.ServiceReceiver, 45) { Parts = 90, IsRepair = true },
        new(StepKind.ServiceDrive, 60) { Parts = 120, IsRepair = true },
        new(StepKind.SwapEnds, 2) { OwnerMay = true, IsRepair = true },
        new(StepKind.CleanContacts, 10) { OwnerMay = true, IsRepair = true },
        new(StepKind.ReplaceBattery, 15) { Parts = 110, IsRepair = true },
        new(StepKind.AskMaker, 30) { Parts = 80, OwnerMay = true, IsRepair = true },
    }.ToFrozenDictionary(facts => facts.Kind);

    /// <summary>Every step's numbers, tests first, in the catalogue's order.</summary>
    public static IReadOnlyList<StepFacts> All { get; } = [.. Enum.GetValues<StepKind>().Select(kind => Facts[kind])];

    /// <summary>One step's numbers.</summary>
    public static StepFacts Of(StepKind kind) => Facts[kind];
}

/// <summary>One step's time, parts and needs.</summary>
/// <param name="Kind">Which step.</param>
/// <param name="Minutes">Technician's minutes, before any length is added.</param>
public sealed record StepFacts(StepKind Kind, double Minutes)
{
    /// <summary>How many times longer an owner takes.</summary>
    public const double OwnerSlowness = 2;

    /// <summary>Minutes per metre of its length.</summary>
    public double MinutesPerMetre { get; init; }

    /// <summary>Never shorter than this (min).</summary>
    public double LeastMinutes { get; init; }

    /// <summary>Minutes at a known joint, where that is quicker; null elsewhere.</summary>
    public double? JointMinutes { get; init; }

    /// <summary>Parts, money.</summary>
    public double Parts { get; init; }

    /// <summary>Parts per metre, money.</summary>
    public double PartsPerMetre { get; init; }

    /// <summary>Parts at a known joint, where that is cheaper.</summary>
    public double? JointParts { get; init; }

    /// <summary>Instruments that must be in hand.</summary>
    public Instruments Needs { get; init; }

    /// <summary>Whether an owner may do it.</summary>
    public bool OwnerMay { get; init; }

    /// <summary>Whether it is a repair, not a test.</summary>
    public bool IsRepair { get; init; }
}
