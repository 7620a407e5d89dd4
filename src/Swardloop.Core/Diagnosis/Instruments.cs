namespace Swardloop.Core.Diagnosis;

/// <summary>What a step may need in hand.</summary>
[Flags]
public enum Instruments
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>Multimeter.</summary>
    Multimeter = 1,

    /// <summary>Capacitance meter.</summary>
    CapacitanceMeter = 2,

    /// <summary>A battery to drive the loop.</summary>
    Battery = 4,

    /// <summary>Tone sender and listener.</summary>
    ToneSender = 8,

    /// <summary>Insulation tester.</summary>
    InsulationTester = 16,

    /// <summary>Time-domain reflectometer.</summary>
    Reflectometer = 32,
}
