namespace Swardloop.Core.MowerRun;

/// <summary>Why a run ended before its time.</summary>
public enum StuckReason
{
    /// <summary>It hears nothing where it starts.</summary>
    NoSignalAtStart,

    /// <summary>It turned again and again on one spot.</summary>
    KeepsTurning,

    /// <summary>It left the lawn and still heard itself inside: no wire lies there.</summary>
    LeftTheLawn,
}
