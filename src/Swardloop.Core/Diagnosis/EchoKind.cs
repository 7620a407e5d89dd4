namespace Swardloop.Core.Diagnosis;

/// <summary>What a reflectometer showed.</summary>
public enum EchoKind
{
    /// <summary>A break.</summary>
    Open,

    /// <summary>A short.</summary>
    ShortCircuit,

    /// <summary>No echo before the end.</summary>
    None,
}
