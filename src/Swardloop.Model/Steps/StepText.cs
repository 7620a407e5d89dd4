namespace Swardloop.Model.Steps;

/// <summary>One step in words: short lines that a person with wet hands can follow.</summary>
/// <param name="Title">What it is called, in a few words.</param>
/// <param name="How">What a technician does, line by line.</param>
public sealed record StepText(string Title, IReadOnlyList<string> How)
{
    /// <summary>What an owner does, in an owner's words; null where an owner must not.</summary>
    public IReadOnlyList<string>? HowForOwner { get; init; }

    /// <summary>What a technician does at a place without a joint, where that differs; null elsewhere.</summary>
    public IReadOnlyList<string>? HowInPlainWire { get; init; }
}
