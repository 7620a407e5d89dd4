namespace Swardloop.Core.Diagnosis;

/// <summary>What a person's hands touch in a step, and what moves beside them. Cautions follow from it.</summary>
[Flags]
public enum StepTouches
{
    /// <summary>Nothing yet; no step touches nothing.</summary>
    None = 0,

    /// <summary>The person stands outdoors.</summary>
    Outdoors = 1,

    /// <summary>Outlet, plug, power supply or station.</summary>
    Mains = 1 << 1,

    /// <summary>A switchboard's breakers.</summary>
    Switchboard = 1 << 2,

    /// <summary>A power supply is chosen and connected.</summary>
    SupplyChoice = 1 << 3,

    /// <summary>The wire or its ends, so the station is off.</summary>
    Wire = 1 << 4,

    /// <summary>A meter's probes.</summary>
    Probes = 1 << 5,

    /// <summary>A point under voltage, measured on volts.</summary>
    LiveLowVoltage = 1 << 6,

    /// <summary>An insulation tester.</summary>
    TestVoltage = 1 << 7,

    /// <summary>A source connected to the loop: a battery or a tone generator.</summary>
    Source = 1 << 8,

    /// <summary>That source is a battery.</summary>
    Battery = 1 << 9,

    /// <summary>The ground: a spade, a stake.</summary>
    Ground = 1 << 10,

    /// <summary>Buried wire is cut, opened or pierced.</summary>
    CutsWire = 1 << 11,

    /// <summary>The mower stands where hands or feet are.</summary>
    MowerParked = 1 << 12,

    /// <summary>The mower is lifted or carried.</summary>
    MowerCarried = 1 << 13,

    /// <summary>The mower is opened or turned over.</summary>
    MowerOpened = 1 << 14,

    /// <summary>The mower runs, with its blades.</summary>
    MowerRunning = 1 << 15,

    /// <summary>The mower is switched on where it stands, and may start by itself.</summary>
    MowerMayStart = 1 << 16,
}
