namespace Swardloop.Core.Diagnosis;

/// <summary>How strong a tone is at a place.</summary>
public enum ToneStrength
{
    /// <summary>Clear.</summary>
    Strong,

    /// <summary>Faint.</summary>
    Weak,

    /// <summary>Nothing heard.</summary>
    None,
}
