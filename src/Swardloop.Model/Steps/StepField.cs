namespace Swardloop.Model.Steps;

/// <summary>One property of an observation in a case file: a parameter that says how a test was made, or an outcome.</summary>
/// <param name="Name">As the file spells it, unit at the end.</param>
/// <param name="Type">What its value is.</param>
/// <param name="Meaning">What it means, in English, for whoever reads the catalogue.</param>
public sealed record StepField(string Name, StepFieldType Type, string Meaning)
{
    /// <summary>Unit; null where there is none.</summary>
    public string? Unit { get; init; }

    /// <summary>Smallest number allowed.</summary>
    public double? Least { get; init; }

    /// <summary>Largest number allowed; null for a place, which ends where the wire ends.</summary>
    public double? Most { get; init; }

    /// <summary>The words allowed.</summary>
    public IReadOnlyList<string> Words { get; init; } = [];

    /// <summary>Whether an observation without it is refused.</summary>
    public bool Required { get; init; } = true;

    /// <summary>Whether <c>over-range</c> is an answer too.</summary>
    public bool MayBeOverRange { get; init; }
}
