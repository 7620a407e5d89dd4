namespace Swardloop.Core.Diagnosis;

/// <summary>What a person must have read before a step is begun. The words are made where the language is known. In the order in which
/// a person should read them: what can kill first.</summary>
/// <remarks>Sources: the limits that no expected value buys off, as the trade states them (common practice, no source); isolation
/// before work after 29 CFR 1910.147; proving an instrument before and after it shows a wire dead after EN 50110-1:2013, 6.2.4 (from
/// memory); extra-low voltage after IEC 61558-1:2005, 3.7.16; what such mowers and stations are after the scope of IEC 60335-2-107:2017.</remarks>
public enum Caution
{
    /// <summary>In thunder nothing is measured and no wire is touched.</summary>
    NoThunder,

    /// <summary>Mains parts stay closed: outlet, plug, supply and station; a dead outlet, too.</summary>
    MainsStayClosed,

    /// <summary>A switchboard is touched with dry hands, not where it is wet or smells burnt, and a switch that trips again stays off.</summary>
    DryHandsAtSwitchboard,

    /// <summary>Probes never go into an outlet or a mains plug.</summary>
    ProbesStayOutOfOutlets,

    /// <summary>Before buried wire is cut, opened or pierced: the meter proven, no AC, no DC, and continuity or tone from the station's end.</summary>
    ProveWireBeforeCutting,

    /// <summary>Buried services are located before anyone digs, cuts or drives in a stake.</summary>
    LocateServices,

    /// <summary>Nothing is connected or measured near a live electric fence.</summary>
    NoLiveElectricFence,

    /// <summary>A test voltage above a multimeter's own needs every wire, station and mower disconnected, and the lawn empty.</summary>
    AllDisconnectedForTestVoltage,

    /// <summary>The station is unplugged and all wire ends are off it before any reading.</summary>
    StationUnplugged,

    /// <summary>A mower runs only inside a loop that works, and not where road, water, a drop or people lie beyond the wire.</summary>
    RunOnlyInsideLiveLoop,

    /// <summary>People, children and animals keep clear of a running mower.</summary>
    ClearOfRunningMower,

    /// <summary>The mower is switched off and its key or battery isolated before hands go near blades.</summary>
    MowerIsolated,

    /// <summary>A mower is carried blades away from the body, with gloves.</summary>
    CarryBladesAway,

    /// <summary>A mower's battery is taken out first, not shorted, opened or charged when damaged.</summary>
    MowerBatteryOut,

    /// <summary>What drives the loop in a test is extra-low voltage: a battery of 12 V at most, or the tone generator.</summary>
    ExtraLowVoltageOnly,

    /// <summary>A battery across the loop is a dry one or limited by a fuse or resistor, and connected only while reading.</summary>
    BatteryCurrentLimited,

    /// <summary>A meter on volts: red lead in V, not A; the tips touch nothing but the point measured.</summary>
    MeterOnVolts,

    /// <summary>A power supply is replaced by one of the same kind, with safety isolation.</summary>
    SafetyIsolatedSupply,
}
