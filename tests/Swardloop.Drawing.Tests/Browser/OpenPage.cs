using Microsoft.Playwright;

namespace Swardloop.Drawing.Tests.Browser;

/// <summary>A page in a context of its own.</summary>
/// <param name="Context">The context.</param>
/// <param name="Page">The page.</param>
public sealed record OpenPage(IBrowserContext Context, IPage Page) : IAsyncDisposable
{
    /// <summary>Errors that the page's console showed.</summary>
    public List<string> Complaints { get; } = [];

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => Context.DisposeAsync();
}
