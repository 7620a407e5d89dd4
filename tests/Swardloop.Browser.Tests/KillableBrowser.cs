using System.Diagnostics;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Swardloop.Tests.Reference;

namespace Swardloop.Browser.Tests;

/// <summary>A browser of our own starting, with its data in a folder that outlives it.</summary>
internal sealed partial class KillableBrowser : IAsyncDisposable
{
    private readonly Process _process;
    private readonly IBrowser _browser;

    private KillableBrowser(Process process, IBrowser browser) => (_process, _browser) = (process, browser);

    public IBrowserContext Context => _browser.Contexts[0];

    public IPage Page => Context.Pages[0];

    public static async Task<KillableBrowser> StartAsync(IPlaywright playwright, string folder)
    {
        Process process = Process.Start(new ProcessStartInfo(DebianChromium.Path,
        [
            .. ServedApp.BrowserArguments, "--headless=new", "--remote-debugging-port=0", $"--user-data-dir={folder}", "--no-first-run",
            "--disable-session-crashed-bubble", "--disable-crash-reporter", "--disable-breakpad", "--hide-crash-restore-bubble", "--lang=en-GB", "about:blank",
        ])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        string? address = null;
        while (address is null && await process.StandardError.ReadLineAsync() is { } line)
        {
            address = Listening().Match(line) is { Success: true } at ? at.Groups[1].Value : null;
        }

        _ = process.StandardError.ReadToEndAsync(); // or it would stand still with its pipe full
        IBrowser browser = await playwright.Chromium.ConnectOverCDPAsync(address ?? throw new InvalidOperationException("The browser ended before it listened."));
        browser.Contexts[0].SetDefaultTimeout(ServedApp.Patience);
        return new(process, browser);
    }

    /// <summary>All its processes at once, without a word.</summary>
    public void Kill()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            _process.WaitForExit();
        }
    }

    public async ValueTask DisposeAsync()
    {
        Kill();
        await _browser.DisposeAsync();
        _process.Dispose();
    }

    [GeneratedRegex(@"DevTools listening on (ws://\S+)")]
    private static partial Regex Listening();
}
