namespace Swardloop.Workshop.Owners;

/// <summary>Why an owner cannot do a step.</summary>
public enum OwnerHindrance
{
    /// <summary>He did not say.</summary>
    NotSaid,

    /// <summary>The tool is not there.</summary>
    NoTool,

    /// <summary>The mower does not start.</summary>
    DoesNotStart,

    /// <summary>He does not dare to.</summary>
    DoesNotDare,
}
