namespace Swardloop.Core.Diagnosis;

/// <summary>Why a mower does not run as it should.</summary>
public enum CauseKind
{
    /// <summary>No mains at the outlet.</summary>
    NoMains,

    /// <summary>The station's supply is dead.</summary>
    Supply,

    /// <summary>The station is dead.</summary>
    Station,

    /// <summary>The wire ends are swapped.</summary>
    EndsSwapped,

    /// <summary>Resistance in series with the wire: a bad joint, a corroded strand.</summary>
    SeriesResistance,

    /// <summary>The wire is broken.</summary>
    Open,

    /// <summary>The wire leaks to earth at one place.</summary>
    Leak,

    /// <summary>The wire leaks at two places.</summary>
    LeakPair,

    /// <summary>The healthy loop cannot cover the lawn.</summary>
    Layout,

    /// <summary>Another loop's signal.</summary>
    Crosstalk,

    /// <summary>The mower's receiver.</summary>
    Receiver,

    /// <summary>The mower's drive.</summary>
    Drive,

    /// <summary>Two wires of a double run touch, so that the loop beyond is cut short.</summary>
    ShortCircuit,

    /// <summary>A contact that comes and goes.</summary>
    Unsteady,

    /// <summary>A fault in a guide wire.</summary>
    Guide,

    /// <summary>The mower does not charge: contacts or battery.</summary>
    Charging,

    /// <summary>Something this model does not know.</summary>
    Unmodelled,

    /// <summary>Nothing is wrong any more.</summary>
    None,
}
