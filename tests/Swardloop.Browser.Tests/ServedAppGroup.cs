namespace Swardloop.Browser.Tests;

/// <summary>Tests before one server and one browser, one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class ServedAppGroup : ICollectionFixture<ServedApp>
{
    public const string Name = "served app";
}
