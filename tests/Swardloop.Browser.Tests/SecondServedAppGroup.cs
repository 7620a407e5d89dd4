namespace Swardloop.Browser.Tests;

/// <summary>The same with a server and a browser of their own, at the same time as <see cref="ServedAppGroup"/>: each waits more than it works.
/// A new test goes where the shorter half is.</summary>
[CollectionDefinition(Name)]
public sealed class SecondServedAppGroup : ICollectionFixture<ServedApp>
{
    public const string Name = "second served app";
}
