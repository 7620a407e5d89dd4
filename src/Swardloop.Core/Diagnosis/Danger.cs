namespace Swardloop.Core.Diagnosis;

/// <summary>What a caution guards against. In the order in which a person reads them.</summary>
public enum Danger
{
    /// <summary>Where one stands: lightning, buried services, a live fence.</summary>
    Ground,

    /// <summary>Mains, station, probes, test voltages and batteries.</summary>
    Electricity,

    /// <summary>Buried wire that is opened and may be another's.</summary>
    Cutting,

    /// <summary>Blades, running or at rest, and the mower's battery.</summary>
    Mower,
}
