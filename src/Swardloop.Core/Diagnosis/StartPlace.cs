namespace Swardloop.Core.Diagnosis;

/// <summary>Where the mower was started.</summary>
public enum StartPlace
{
    /// <summary>Close to the wire.</summary>
    AtWire,

    /// <summary>In the middle of the lawn.</summary>
    MidLawn,
}
