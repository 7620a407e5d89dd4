namespace Swardloop.Drawing.Tests.Browser;

[Collection(OneBrowser.Name)]
public sealed class EngineBrowserTests(BrowserFixture browser, ITestOutputHelper output)
{
    [Theory]
    [InlineData("marram-reach", null)]
    [InlineData("sorrel-corner", null)]
    [InlineData("thimble-court", "delete window.Worker;")]
    public async Task Worker_and_page_give_the_same_bytes(string name, string? before)
    {
        await using OpenPage opened = await browser.Open($"engine/{name}", before: before);
        await opened.Page.WaitForFunctionAsync("() => document.querySelector('#done').textContent === 'done'", null, new() { Timeout = 240_000 });
        output.WriteLine(await opened.Page.TextContentAsync("#times") ?? "");
        Assert.Equal("same", await opened.Page.TextContentAsync("#same"));
        Assert.Equal(before is null ? "False" : "True", await opened.Page.TextContentAsync("#page"));
        Assert.Contains("last 1", await opened.Page.TextContentAsync("#map"), StringComparison.Ordinal);
        Assert.Contains("format", await opened.Page.TextContentAsync("#refusal"), StringComparison.Ordinal);
        Assert.Empty(opened.Complaints);
    }
}
