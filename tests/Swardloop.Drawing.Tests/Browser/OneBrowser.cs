namespace Swardloop.Drawing.Tests.Browser;

/// <summary>Browser tests share one browser and run one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class OneBrowser : ICollectionFixture<BrowserFixture>
{
    /// <summary>The collection's name.</summary>
    public const string Name = "browser";
}
