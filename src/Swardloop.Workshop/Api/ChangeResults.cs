namespace Swardloop.Workshop.Api;

/// <summary>What became of a batch, in its order.</summary>
public sealed record ChangeResults(IReadOnlyList<ChangeResult> Results);
