using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Swardloop.Browser.Tests;

/// <summary>Two tabs of one browser that can be killed, in which somebody types, and what was typed into them and not given up.</summary>
/// <param name="app">The workshop.</param>
/// <param name="folder">Where the browser keeps its data.</param>
internal sealed class TypingPair(ServedApp app, string folder) : IAsyncDisposable
{
    // Everything that this device has on its disk: drafts, records, and changes that wait.
    private const string OnDisk =
        """
        async () => {
            const asked = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
            let all = "";
            for (const { name } of await indexedDB.databases()) {
                const database = await asked(indexedDB.open(name));
                const stores = [...database.objectStoreNames].filter(store => ["drafts", "records", "waiting"].includes(store));
                if (stores.length > 0) {
                    const reading = database.transaction(stores);
                    for (const rows of await Promise.all(stores.map(store => asked(reading.objectStore(store).getAll())))) all += JSON.stringify(rows);
                }
                database.close();
            }
            return all;
        }
        """;

    /// <summary>Fields of an owner, as labels name them and as records do.</summary>
    public static IReadOnlyList<(string Label, string Field)> Fields { get; } = [("Telephone", "phone"), ("E-mail", "email"), ("Address", "address"), ("Note", "note")];

    /// <summary>Dialogs with something to type: the key that opens each, on which place, and what holds what is typed.</summary>
    public static IReadOnlyList<(string Name, bool IsOfCase, string? Key, string Input)> Dialogs { get; } =
    [
        ("new owner", false, "o", "form input"),
        ("new case", false, "c", "#new-case-complaint"),
        ("observation", true, "r", "form .two input[maxlength='4000']"),
        ("close", true, null, "textarea"),
    ];

    private readonly Dictionary<(int Tab, string Where), Text> _expected = [];
    private readonly IPage[] _tabs = new IPage[2];
    private readonly int[] _depth = new int[2];
    private KillableBrowser? _browser;
    private Guid _owner, _case;

    /// <summary>What was done in this sequence.</summary>
    public List<string> Done { get; } = [];

    public int Typed { get; private set; }

    public int Reloads { get; private set; }

    public int Backs { get; private set; }

    public int Kills { get; private set; }

    public int Arrivals { get; private set; }

    /// <summary>Starts the browser with both tabs.</summary>
    public async Task StartAsync()
    {
        _browser = await KillableBrowser.StartAsync(app.Playwright, folder);
        await app.SignInAsync(_browser.Context);
        _tabs[0] = _browser.Page;
        _tabs[1] = await _browser.Context.NewPageAsync();
        for (int tab = 0; tab < 2; tab++)
        {
            await _tabs[tab].GotoAsync(app.Root);
            await ReadyAsync(tab);
            _depth[tab] = 0;
        }
    }

    /// <summary>Another owner and case: nothing is typed of them yet.</summary>
    public async Task BeginAsync(Guid owner, Guid @case)
    {
        (_owner, _case) = (owner, @case);
        _expected.Clear();
        Done.Clear();
        for (int tab = 0; tab < 2; tab++)
        {
            await GoAsync(tab, $"owner/{owner}");
        }
    }

    public async Task TypeInFieldAsync(int tab, (string Label, string Field) field)
    {
        await GoAsync(tab, $"owner/{_owner}");
        await CloseDialogAsync(tab);
        await TypeAsync(tab, field.Field, _tabs[tab].Locator("main").GetByLabel(field.Label, new() { Exact = false }).First);
    }

    public async Task TypeInDialogAsync(int tab, (string Name, bool IsOfCase, string? Key, string Input) dialog, bool leaves)
    {
        ILocator input = await OpenAsync(tab, dialog);
        await TypeAsync(tab, dialog.Name, input);
        if (leaves)
        {
            await CloseDialogAsync(tab);
        }
    }

    /// <summary>The cursor leaves the field.</summary>
    public async Task LeaveAsync(int tab)
    {
        Done.Add($"tab {tab}: leave");
        await _tabs[tab].EvaluateAsync("() => document.activeElement?.blur?.()");
    }

    public async Task ReloadAsync(int tab)
    {
        Done.Add($"tab {tab}: load again");
        Reloads++;
        await _tabs[tab].ReloadAsync();
        await ReadyAsync(tab);
    }

    public async Task BackAsync(int tab)
    {
        if (_depth[tab] > 0)
        {
            Done.Add($"tab {tab}: back");
            Backs++;
            _depth[tab]--;
            await _tabs[tab].EvaluateAsync("() => history.back()");
            await ReadyAsync(tab);
        }
    }

    /// <summary>A value of the same field arrives from somebody else.</summary>
    public async Task ArriveAsync((string Label, string Field) field)
    {
        Done.Add($"{field.Field} arrives");
        Arrivals++;
        await app.SendAsync(HttpMethod.Post, "api/changes", new
        {
            changes = (object[])[new { id = Guid.CreateVersion7(), kind = "owner", record = _owner, set = new Dictionary<string, string> { [field.Field] = $"other {Arrivals}" }, seen = new { }, madeAt = DateTimeOffset.Now }],
        });
    }

    /// <summary>Power gone. What is not on the disk yet may go with it.</summary>
    /// <param name="isWaiting">Whether all that was typed is waited for first, as it is within some milliseconds.</param>
    public async Task KillAsync(bool isWaiting)
    {
        Done.Add(isWaiting ? "kill, all on the disk" : "kill at once");
        Kills++;
        string onDisk = await _tabs[0].EvaluateAsync<string>(OnDisk);
        using CancellationTokenSource patience = new(TimeSpan.FromMilliseconds(ServedApp.Patience));
        while (isWaiting && _expected.Values.FirstOrDefault(text => !onDisk.Contains(text.Token, StringComparison.Ordinal)) is { } missing)
        {
            Assert.False(patience.IsCancellationRequested, $"{missing.Token} never reached the disk.");
            onDisk = await _tabs[0].EvaluateAsync<string>(OnDisk);
        }

        foreach ((int, string) where in _expected.Where(each => !onDisk.Contains(each.Value.Token, StringComparison.Ordinal)).Select(each => each.Key).ToArray())
        {
            _ = _expected.Remove(where);
        }

        _browser!.Kill();
        await _browser.DisposeAsync();
        await StartAsync();
        foreach (Text text in _expected.Values)
        {
            text.IsOfGoneTab = true;
        }
    }

    /// <summary>What was typed and is nowhere: neither kept, nor where it was typed when that is opened again. Null for nothing.</summary>
    public async Task<string?> LostAsync()
    {
        Dictionary<(int Tab, string Where), string> seen = [];
        for (int tab = 0; tab < 2; tab++)
        {
            await ReloadAsync(tab);
            Reloads--;
            await GoAsync(tab, $"owner/{_owner}");
            foreach ((string label, string field) in Fields)
            {
                if (_expected.Keys.Any(key => key.Where == field))
                {
                    ILocator input = _tabs[tab].Locator("main").GetByLabel(label, new() { Exact = false }).First;
                    await Expect(input).ToBeVisibleAsync();
                    await Expect(_tabs[tab].Locator(".field[aria-busy=true]")).ToHaveCountAsync(0); // what was typed before is read
                    seen[(tab, field)] = await input.InputValueAsync() + " " + await _tabs[tab].Locator("main").InnerTextAsync();
                }
            }

            foreach ((string Name, bool IsOfCase, string? Key, string Input) dialog in Dialogs.Where(each => _expected.Keys.Any(key => key.Where == each.Name)))
            {
                ILocator input = await OpenAsync(tab, dialog);
                seen[(tab, dialog.Name)] = await input.InputValueAsync();
                if (!dialog.IsOfCase)
                {
                    await ForgetAsync(tab);
                }

                await CloseDialogAsync(tab);
            }
        }

        await OwnerPage.AllArrivedAsync(_tabs[0]);
        foreach (((int tab, string where), Text text) in _expected)
        {
            bool isSeen = seen.Any(each => each.Key.Where == where && (text.IsOfGoneTab || each.Key.Tab == tab) && each.Value.Contains(text.Token, StringComparison.Ordinal));
            if (!isSeen && !(Fields.Any(each => each.Field == where) && (await app.HistoryAsync(_owner, where)).Contains(text.Token)))
            {
                return $"{text.Token}, typed in tab {tab} under {where}, is lost; there: {string.Join(" | ", seen.Where(each => each.Key.Where == where).Select(each => $"tab {each.Key.Tab}: {each.Value[..Math.Min(60, each.Value.Length)]}"))}";
            }
        }

        return null;
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }
    }

    // Some of it at once, as when it is pasted, the rest key by key.
    private async Task TypeAsync(int tab, string where, ILocator input)
    {
        string token = $"w{++Typed}x", shown = await input.InputValueAsync();
        Done.Add($"tab {tab}: {token} in {where}, over \"{shown}\"");

        // What a tab that is gone left stands in the field of whichever came first: who types over it, seeing it, gives it up.
        foreach ((int, string) given in _expected.Where(each => each.Key.Where == where && each.Value.IsOfGoneTab && each.Value.Token == shown).Select(each => each.Key).ToArray())
        {
            _ = _expected.Remove(given);
        }

        await input.FillAsync(token[..^2]);
        await input.PressSequentiallyAsync(token[^2..]);
        await Expect(input).ToHaveValueAsync(token);
        _expected[(tab, where)] = new(token);
    }

    private async Task<ILocator> OpenAsync(int tab, (string Name, bool IsOfCase, string? Key, string Input) dialog)
    {
        IPage page = _tabs[tab];
        await CloseDialogAsync(tab);
        if (dialog.IsOfCase)
        {
            await GoAsync(tab, $"case/{_case}");
            await Expect(page.Locator(".known")).ToBeAttachedAsync();
        }

        await page.EvaluateAsync("() => document.activeElement?.blur?.()");
        await OwnerPage.UntilAsync(page, "!document.documentElement.dataset.keys");
        await (dialog.Key is { } key ? page.Keyboard.PressAsync(key) : page.Locator(".place-head button").Filter(new() { HasText = "Close the case" }).ClickAsync());
        ILocator input = page.Locator($"dialog[open] {dialog.Input}").First;
        await Expect(input).ToBeVisibleAsync();
        return input;
    }

    // What is seen is taken off again, or the next sequence would find it.
    private async Task ForgetAsync(int tab)
    {
        ILocator anew = _tabs[tab].Locator("dialog[open] .filled-before button");
        if (await anew.CountAsync() > 0)
        {
            await anew.ClickAsync();
            await Expect(anew).ToHaveCountAsync(0);
        }
    }

    private async Task CloseDialogAsync(int tab)
    {
        ILocator dialog = _tabs[tab].Locator("dialog[open]");
        if (await dialog.CountAsync() > 0)
        {
            await _tabs[tab].Keyboard.PressAsync("Escape");
            await Expect(_tabs[tab].Locator("dialog")).ToHaveCountAsync(0);
        }
    }

    private async Task GoAsync(int tab, string path)
    {
        if (!_tabs[tab].Url.EndsWith($"/{path}", StringComparison.Ordinal))
        {
            await CloseDialogAsync(tab);
            _depth[tab]++;
            await _tabs[tab].EvaluateAsync("path => Blazor.navigateTo(path)", path);
            await Expect(_tabs[tab]).ToHaveURLAsync($"{app.Root}/{path}");
        }

        await ReadyAsync(tab);
        await Expect(_tabs[tab].Locator("h1").First).ToHaveTextAsync(path.StartsWith("owner", StringComparison.Ordinal) ? "Hazel Thimble" : "Stops beside the pond");
    }

    private Task ReadyAsync(int tab) => Expect(_tabs[tab].Locator(".saved-button")).ToBeVisibleAsync();

    private sealed class Text(string token)
    {
        public string Token => token;

        /// <summary>Its tab was killed: it may stand in either tab now.</summary>
        public bool IsOfGoneTab { get; set; }
    }
}
