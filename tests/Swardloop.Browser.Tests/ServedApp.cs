using System.Diagnostics;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace Swardloop.Browser.Tests;

/// <summary>The workshop's server as a process of its own, published as a workshop gets it, on a free port and an empty folder, and a browser
/// before it. It can be killed and started again. All browser tests share one.</summary>
public sealed partial class ServedApp : IAsyncLifetime
{
    /// <summary>Whose account there is.</summary>
    public const string Email = "robin@swardloop.example", Password = "otters like brambles";

    private readonly string _folder = Directory.CreateTempSubdirectory("swardloop-").FullName;
    private PublishedBuild? _build;
    private Process? _server;
    private IPlaywright? _playwright;
    private IBrowser? _browser;

    /// <summary>Where it is, without a slash at the end.</summary>
    public string Root { get; private set; } = "";

    /// <summary>The code that makes the first account; null once there is one.</summary>
    public string? Code { get; private set; }

    public async ValueTask InitializeAsync()
    {
        _build = await PublishedBuild.MakeAsync();
        await StartAsync();
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
        Kill();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Starts the server; on the same port when it ran before, for a page that is still open.</summary>
    /// <param name="build">The build; null for the one that was published.</param>
    public async Task StartAsync(PublishedBuild? build = null)
    {
        string urls = Root.Length > 0 ? Root : "http://127.0.0.1:0";
        _server = Process.Start(new ProcessStartInfo("dotnet", [(build ?? _build!).Program, "serve", "--urls", urls, "--data", _folder])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        _server.ErrorDataReceived += (_, _) => { };
        _server.BeginErrorReadLine();
        Code = null;
        while (await _server.StandardOutput.ReadLineAsync() is { } line)
        {
            if (Address().Match(line) is { Success: true } at)
            {
                Root = at.Value;
            }

            if (OneTimeCode().Match(line) is { Success: true } code)
            {
                Code = code.Groups[1].Value;
            }

            if (Root.Length > 0 && (Code is not null || urls == Root))
            {
                return;
            }
        }

        throw new InvalidOperationException("The server ended before it listened.");
    }

    /// <summary>Power gone.</summary>
    public void Kill()
    {
        if (_server is { HasExited: false })
        {
            _server.Kill();
            _server.WaitForExit();
        }

        _server?.Dispose();
        _server = null;
    }

    /// <summary>A device that was never here.</summary>
    public async Task<IPage> DeviceAsync(int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light, bool hasTouch = false)
    {
        IBrowserContext device = await _browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = scheme,
            Locale = "en-GB",
            HasTouch = hasTouch,
        });
        device.SetDefaultTimeout(120_000);
        Assertions.SetDefaultExpectTimeout(120_000);
        return await device.NewPageAsync();
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:[1-9]\d*")]
    private static partial Regex Address();

    [GeneratedRegex(@"with this code: (\S+)")]
    private static partial Regex OneTimeCode();
}
