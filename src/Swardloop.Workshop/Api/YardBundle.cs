using Swardloop.Workshop.Records;

namespace Swardloop.Workshop.Api;

/// <summary>A yard with all that belongs to it: what a phone takes along.</summary>
/// <param name="Version">The workshop's last change when this was put together.</param>
/// <param name="Yard">The yard.</param>
/// <param name="Records">Owner, profile, cases, observations, visits and photos of it.</param>
public sealed record YardBundle(long Version, RecordState Yard, IReadOnlyList<RecordState> Records);
