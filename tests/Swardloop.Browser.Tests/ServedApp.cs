using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Swardloop.Tests.Reference;

namespace Swardloop.Browser.Tests;

/// <summary>The workshop's server as a process of its own, published as a workshop gets it, on a free port and an empty folder, and a browser
/// before it. It can be killed and started again. All tests of a group share one, and all groups the build.</summary>
public sealed partial class ServedApp : IAsyncLifetime
{
    /// <summary>Whose account there is.</summary>
    public const string Email = "robin@swardloop.example", Password = "otters like brambles";

    /// <summary>Longest wait for anything (ms).</summary>
    public static readonly float Patience = float.Parse(Environment.GetEnvironmentVariable("SWARDLOOP_PATIENCE") ?? "180", System.Globalization.CultureInfo.InvariantCulture) * 1000;

    private static readonly Lazy<Task<PublishedBuild>> Published = new(PublishedBuild.MakeAsync);

    private readonly List<(string Test, IBrowserContext Device)> _devices = [];
    private readonly string _folder = Directory.CreateTempSubdirectory("swardloop-").FullName;
    private PublishedBuild? _build;
    private Process? _server;
    private IPlaywright? _playwright;
    private IBrowser? _browser;
    private HttpClient? _outside;
    private Process? _demo;
    private string _demoRoot = "";

    /// <summary>The build that is served, unless another is asked for.</summary>
    public PublishedBuild Build => _build!;

    /// <summary>What tests say to the browser they start. It is to tell pages the quota that there is: without being asked it tells all the same number.</summary>
    public static IReadOnlyList<string> BrowserArguments { get; } =
        ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--disable-features=StaticStorageQuota"];

    /// <summary>Where it is, without a slash at the end.</summary>
    public string Root { get; private set; } = "";

    /// <summary>The code that makes the first account; null once there is one.</summary>
    public string? Code { get; private set; }

    public async ValueTask InitializeAsync()
    {
        Assertions.SetDefaultExpectTimeout(Patience);
        _build = await Published.Value;
        await StartAsync();
        _playwright = await Microsoft.Playwright.Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = DebianChromium.Path,
            Args = BrowserArguments,
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _outside?.Dispose();
        _playwright?.Dispose();
        Kill();
        if (_demo is not null)
        {
            _demo.Kill();
            _demo.WaitForExit();
            _demo.Dispose();
        }

        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>The same build as the demo workshop, which lets everybody in; a process beside the other, begun by whichever test asks first.</summary>
    /// <returns>Where it is, without a slash at the end.</returns>
    public async Task<string> DemoAsync()
    {
        if (_demo is null)
        {
            _demo = Process.Start(new ProcessStartInfo("dotnet", [_build!.Program, "serve", "--demo", "--urls", "http://127.0.0.1:0", "--data", _folder])
            {
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            })!;
            _demo.ErrorDataReceived += (_, _) => { };
            _demo.BeginErrorReadLine();
            while (_demoRoot.Length == 0)
            {
                string line = await _demo.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException("The demo ended before it listened.");
                _demoRoot = Address().Match(line) is { Success: true } at ? at.Value : "";
            }
        }

        return _demoRoot;
    }

    /// <summary>Starts the server; on the same port when it ran before, for a page that is still open.</summary>
    /// <param name="build">The build; null for the one that was published.</param>
    public async Task StartAsync(PublishedBuild? build = null)
    {
        bool isAgain = Root.Length > 0;
        string urls = isAgain ? Root : $"http://127.0.0.1:{FreePort.Next()}";
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

            if (Root.Length > 0 && (Code is not null || isAgain))
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

    /// <summary>The driver of browsers.</summary>
    public IPlaywright Playwright => _playwright!;

    /// <summary>A device on which somebody has signed in and everything is fetched.</summary>
    public async Task<IPage> SignedInAsync(int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light, string email = Email)
    {
        IPage page = await DeviceAsync(width, height, scheme);
        await SignInAsync(page.Context, email);
        await page.GotoAsync(Root);
        await Assertions.Expect(page.Locator(".saved-button")).ToContainTextAsync("All at the workshop");
        return page;
    }

    /// <summary>Gives a browser the cookie of somebody signed in.</summary>
    public async Task SignInAsync(IBrowserContext device, string email = Email)
    {
        await MeetServerAsync();
        IAPIResponse answer = await device.APIRequest.PostAsync($"{Root}/api/sign-in", new() { DataObject = new { email, password = Password } });
        Assert.True(answer.Ok, await answer.TextAsync());
    }

    /// <summary>The server's answer, asked for by somebody signed in outside of any browser.</summary>
    public async Task<JsonElement> GetAsync(string path) => await (await MeetServerAsync()).GetFromJsonAsync<JsonElement>($"{Root}/{path}");

    /// <summary>Posts or puts, and expects it to be taken.</summary>
    public async Task SendAsync(HttpMethod method, string path, object body)
    {
        using HttpRequestMessage request = new(method, $"{Root}/{path}") { Content = JsonContent.Create(body) };
        using HttpResponseMessage answer = await (await MeetServerAsync()).SendAsync(request);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }

    /// <summary>Whoever was given a password chooses another before anything else.</summary>
    public async Task ChooseOwnPasswordAsync(string email, string given)
    {
        using HttpClient person = new();
        using HttpResponseMessage signIn = await person.PostAsJsonAsync($"{Root}/api/sign-in", new { email, password = given });
        using HttpResponseMessage change = await person.PutAsJsonAsync($"{Root}/api/me/password", new { current = given, password = Password });
        Assert.True(change.IsSuccessStatusCode, await change.Content.ReadAsStringAsync());
    }

    /// <summary>Makes a record at the server.</summary>
    /// <returns>Its id.</returns>
    public async Task<Guid> AddAsync(string kind, object set)
    {
        Guid id = Guid.CreateVersion7(), change = Guid.CreateVersion7();
        await SendAsync(HttpMethod.Post, "api/changes", new { changes = (object[])[new { id = change, kind, record = id, set, seen = new { }, madeAt = DateTimeOffset.Now }] });
        return id;
    }

    /// <summary>What each change of a record gave to one of its fields, in the order in which the server took them in.</summary>
    public async Task<string[]> HistoryAsync(Guid record, string field) =>
    [
        .. (await GetAsync($"api/records/{record}/history")).EnumerateArray().OrderBy(entry => entry.GetProperty("version").GetInt64())
            .Select(entry => entry.GetProperty("change").GetProperty("set"))
            .Where(set => set.TryGetProperty(field, out _)).Select(set => set.GetProperty(field).ToString()),
    ];

    /// <summary>A device that was never here; gone when another test asks for one.</summary>
    public async Task<IPage> DeviceAsync(int width = 1440, int height = 900, ColorScheme scheme = ColorScheme.Light, bool hasTouch = false, string locale = "en-GB")
    {
        string test = TestContext.Current.Test?.UniqueID ?? "";
        foreach ((_, IBrowserContext old) in _devices.FindAll(each => each.Test != test))
        {
            await old.CloseAsync(); // its pages would go on talking to the server
        }

        _devices.RemoveAll(each => each.Test != test);
        IBrowserContext device = await _browser!.NewContextAsync(new()
        {
            ViewportSize = new() { Width = width, Height = height },
            ColorScheme = scheme,
            Locale = locale,
            HasTouch = hasTouch,
        });
        _devices.Add((test, device));
        device.SetDefaultTimeout(Patience);
        return await device.NewPageAsync();
    }

    // The first account is made through the page, by whichever test comes first; or here.
    private async Task<HttpClient> MeetServerAsync()
    {
        if (_server is null)
        {
            await StartAsync(); // a test that failed left it dead
        }

        if (_outside is null)
        {
            HttpClient outside = new();
            bool isFirst = (await outside.GetFromJsonAsync<JsonElement>($"{Root}/api/me")).GetProperty("needsFirstAccount").GetBoolean();
            using HttpResponseMessage answer = isFirst
                ? await outside.PostAsJsonAsync($"{Root}/api/first-account", new { code = Code, name = "Robin Thimble", email = Email, password = Password })
                : await outside.PostAsJsonAsync($"{Root}/api/sign-in", new { email = Email, password = Password });
            Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
            _outside = outside;
        }

        return _outside;
    }

    [GeneratedRegex(@"http://127\.0\.0\.1:[1-9]\d*")]
    private static partial Regex Address();

    [GeneratedRegex(@"with this code: (\S+)")]
    private static partial Regex OneTimeCode();
}
