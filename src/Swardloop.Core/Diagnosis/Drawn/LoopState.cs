namespace Swardloop.Core.Diagnosis.Drawn;

/// <summary>Which loop a picture shows.</summary>
public enum LoopState
{
    /// <summary>Sound, as drawn.</summary>
    Sound,

    /// <summary>With the fault that is believed, by the network's currents.</summary>
    Now,

    /// <summary>With that fault, as practice knows it.</summary>
    Practice,
}
