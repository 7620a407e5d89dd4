using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>What became of one change.</summary>
/// <param name="Id">The change.</param>
/// <param name="Status">What became of it.</param>
/// <param name="Problems">Why it was refused; empty otherwise.</param>
/// <param name="Record">The record as it is now, both sides of a conflict in it; null when refused.</param>
public sealed record ChangeResult(Guid Id, ChangeStatus Status, IReadOnlyList<FieldProblem> Problems, RecordState? Record);
