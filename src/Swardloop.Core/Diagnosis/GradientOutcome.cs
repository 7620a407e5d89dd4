namespace Swardloop.Core.Diagnosis;

/// <summary>What two stakes in line with the wire say of where a current leaves it.</summary>
public enum GradientOutcome
{
    /// <summary>Further on, towards terminal B.</summary>
    Ahead,

    /// <summary>Behind, towards terminal A.</summary>
    Behind,

    /// <summary>Between the stakes, or beside them.</summary>
    Here,

    /// <summary>No voltage to be told from the ground's own.</summary>
    Nothing,
}
