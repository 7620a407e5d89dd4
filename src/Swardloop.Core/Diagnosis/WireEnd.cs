namespace Swardloop.Core.Diagnosis;

/// <summary>One of the loop's two terminals.</summary>
public enum WireEnd
{
    /// <summary>Terminal A, s = 0.</summary>
    A,

    /// <summary>Terminal B, s = L.</summary>
    B,
}
