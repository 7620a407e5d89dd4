namespace Swardloop.Core.Diagnosis;

/// <summary>How the mower followed the wire.</summary>
public enum FollowOutcome
{
    /// <summary>Straight home.</summary>
    Steady,

    /// <summary>Swaying.</summary>
    Wavering,

    /// <summary>It lost the wire.</summary>
    Lost,
}
