namespace Swardloop.Server.Tests.Input;

/// <summary>Tests that measure what is left on the heap: what servers of other tests hold at the same time would be counted too.</summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class HeapIsMeasured
{
    /// <summary>The collection's name.</summary>
    public const string Name = "The heap is measured";
}
