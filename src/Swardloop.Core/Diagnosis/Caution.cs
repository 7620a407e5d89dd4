namespace Swardloop.Core.Diagnosis;

/// <summary>What must be heeded before a step is begun. The words are made where the language is known. In the order in which
/// a person should read them: what can kill first.</summary>
/// <remarks>Sources: the limits that no expected value buys off, as the trade states them (common practice, no source); isolation
/// before work after 29 CFR 1910.147; extra-low voltage after IEC 61558-1:2005, 3.7.16; what such mowers and stations are after
/// the scope of IEC 60335-2-107:2017.</remarks>
public enum Caution
{
    /// <summary>In thunder nothing is measured and no wire is touched.</summary>
    NoThunder,

    /// <summary>Mains parts stay closed: outlet, plug, supply and station.</summary>
    MainsStayClosed,

    /// <summary>The station is unplugged and both wire ends are off it before any reading.</summary>
    StationUnplugged,

    /// <summary>A test voltage above a multimeter's own needs loop, station and mower all disconnected.</summary>
    AllDisconnectedForTestVoltage,

    /// <summary>Nothing is connected or measured near a live electric fence.</summary>
    NoLiveElectricFence,

    /// <summary>What drives the loop in a test is extra-low voltage: a battery of 12 V at most.</summary>
    ExtraLowVoltageOnly,

    /// <summary>Buried services are located before anyone digs, cuts or drives in a stake.</summary>
    LocateServices,

    /// <summary>The mower is switched off and its key or battery isolated before hands go near blades.</summary>
    MowerIsolated,

    /// <summary>People, children and animals keep clear of a running mower.</summary>
    ClearOfRunningMower,
}
