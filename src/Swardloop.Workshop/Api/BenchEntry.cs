using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>One open case on the bench.</summary>
/// <param name="Case">The case.</param>
/// <param name="Yard">Its yard.</param>
/// <param name="YardName">What the yard is called.</param>
/// <param name="OwnerName">Whose it is; null when not known.</param>
/// <param name="Complaint">What the owner said.</param>
/// <param name="State">One of <see cref="RecordFields.CaseStates"/>.</param>
/// <param name="OpenedAt">When it was opened.</param>
/// <param name="PromisedOn">Day promised to the owner; null for none.</param>
/// <param name="LastNewsAt">When the last observation arrived.</param>
/// <param name="NewFromOwner">How many of the owner's answers nobody of the workshop has looked at.</param>
/// <param name="Cause">Likeliest cause, by the contract's name; null without advice.</param>
/// <param name="Probability">How likely, 0 to 1; null without advice.</param>
/// <param name="NextStep">Step advised, by the contract's name; null without advice.</param>
/// <param name="NextBy"><c>owner</c> or <c>technician</c>; null without advice.</param>
/// <param name="ExpectedCost">Expected cost to the finish, in the workshop's currency; null without advice.</param>
/// <param name="HasConflict">Whether a field holds two values.</param>
public sealed record BenchEntry(
    Guid Case, Guid Yard, string YardName, string? OwnerName, string Complaint, string State, DateTimeOffset OpenedAt, DateOnly? PromisedOn,
    DateTimeOffset? LastNewsAt, int NewFromOwner, string? Cause, double? Probability, string? NextStep, string? NextBy, double? ExpectedCost,
    bool HasConflict);
