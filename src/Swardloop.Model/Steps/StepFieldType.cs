namespace Swardloop.Model.Steps;

/// <summary>What a property's value is.</summary>
public enum StepFieldType
{
    /// <summary>A number.</summary>
    Number,

    /// <summary>A place along the wire, in metres from terminal A: 0 to the wire's length.</summary>
    Place,

    /// <summary>One of some words.</summary>
    Word,

    /// <summary>True or false.</summary>
    Flag,

    /// <summary>A meter's limits of error: percent, digits, resolutionOhms.</summary>
    Meter,

    /// <summary>Free text.</summary>
    Text,
}
