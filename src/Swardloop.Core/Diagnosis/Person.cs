namespace Swardloop.Core.Diagnosis;

/// <summary>Who does a step.</summary>
public enum Person
{
    /// <summary>Someone of the workshop.</summary>
    Technician,

    /// <summary>The garden's owner.</summary>
    Owner,
}
