namespace Swardloop.Core.Diagnosis;

/// <summary>What the station's lamp shows.</summary>
public enum LampState
{
    /// <summary>Dark.</summary>
    Off,

    /// <summary>All is well.</summary>
    Normal,

    /// <summary>Unsteady.</summary>
    Flicker,

    /// <summary>No loop.</summary>
    Alarm,
}
