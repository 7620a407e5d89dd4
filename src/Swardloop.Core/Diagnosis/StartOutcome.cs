namespace Swardloop.Core.Diagnosis;

/// <summary>What a started mower did.</summary>
public enum StartOutcome
{
    /// <summary>It mows.</summary>
    Runs,

    /// <summary>It reports no signal.</summary>
    NoSignal,

    /// <summary>It believes itself outside.</summary>
    Outside,
}
