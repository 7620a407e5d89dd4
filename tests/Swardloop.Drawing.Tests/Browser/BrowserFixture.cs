using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.StaticFiles;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;
using Swardloop.Tests.Reference;

namespace Swardloop.Drawing.Tests.Browser;

/// <summary>One browser, and the host's pages on a port of this machine under the app's own content security policy.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private const string Policy =
        "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; worker-src 'self'; object-src 'none'; base-uri 'self'";

    /// <summary>Longest wait for anything (ms): a machine that is busy with other tests is slow, not wrong.</summary>
    private const float Patience = 180_000;

    private WebApplication? _server;
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where the pages are, with a slash at the end.</summary>
    public string Address { get; private set; } = "";

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        string built = Path.Combine(Repository.Root, "tests", "Swardloop.Drawing.Host", "bin", "Release", "net10.0");
        WebApplicationBuilder builder = WebApplication.CreateBuilder(new WebApplicationOptions { ApplicationName = "Swardloop.Drawing.Host", ContentRootPath = built, EnvironmentName = "Production" });
        builder.Logging.ClearProviders();
        builder.Configuration["staticWebAssets"] = Path.Combine(built, "Swardloop.Drawing.Host.staticwebassets.runtime.json");
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        _server = builder.Build();
        _server.Use((context, next) =>
        {
            context.Response.Headers.ContentSecurityPolicy = Policy;
            return next();
        });
        FileExtensionContentTypeProvider types = new();
        types.Mappings[".dat"] = types.Mappings[".blat"] = "application/octet-stream";
        _server.UseStaticFiles(new StaticFileOptions { ContentTypeProvider = types });
        _server.MapFallbackToFile("index.html");
        await _server.StartAsync();
        Address = _server.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First() + "/";

        Assertions.SetDefaultExpectTimeout(Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = DebianChromium.Path,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
        });
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        if (_server is not null)
        {
            await _server.DisposeAsync();
        }
    }

    /// <summary>Opens a page of its own kind; whatever it complains of is collected.</summary>
    /// <param name="path">Which page.</param>
    /// <param name="phone">Whether it is a phone's 390 × 844 with touch rather than a desk's 1440 × 900.</param>
    /// <param name="dark">Whether its colours are dark.</param>
    /// <param name="before">Script to run before the page's own.</param>
    public async Task<OpenPage> Open(string path, bool phone = false, bool dark = false, string? before = null)
    {
        IBrowserContext context = await _browser!.NewContextAsync(new()
        {
            ViewportSize = phone ? new() { Width = 390, Height = 844 } : new() { Width = 1440, Height = 900 },
            HasTouch = phone,
            IsMobile = phone,
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
        });
        context.SetDefaultTimeout(Patience);
        if (before is not null)
        {
            await context.AddInitScriptAsync(before);
        }

        IPage page = await context.NewPageAsync();
        OpenPage opened = new(context, page);
        page.Console += (_, message) =>
        {
            if (message.Type == "error")
            {
                opened.Complaints.Add(message.Text);
            }
        };
        page.PageError += (_, fault) => opened.Complaints.Add(fault);
        await page.GotoAsync(Address + path);
        await page.WaitForSelectorAsync("h1", new() { Timeout = Patience });
        return opened;
    }
}
