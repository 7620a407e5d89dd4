namespace Swardloop.Core.Diagnosis;

/// <summary>What the wire's ends and the station's terminals look like.</summary>
public enum TerminalState
{
    /// <summary>Bright and tight.</summary>
    Sound,

    /// <summary>Loose: it moved by hand.</summary>
    Loose,

    /// <summary>Green, black or wet.</summary>
    Corroded,
}
