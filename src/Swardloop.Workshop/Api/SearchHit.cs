using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>One record that a search found.</summary>
/// <param name="Kind">Owner, yard or case.</param>
/// <param name="Id">The record.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Detail">What tells it from its like.</param>
/// <param name="IsOpen">Of a case: whether it is open.</param>
public sealed record SearchHit(RecordKind Kind, Guid Id, string Title, string Detail, bool IsOpen);
