using Swardloop.Client.Device;

namespace Swardloop.Client.Tests;

/// <summary>A device whose store is in memory; it survives a reload of the page, that is, a new <see cref="ThisDevice"/> on it.</summary>
internal sealed partial class MemoryPage : IDevicePage
{
    private readonly Dictionary<string, SortedDictionary<string, string>> _parts = new()
    {
        ["records"] = new(StringComparer.Ordinal),
        ["waiting"] = new(StringComparer.Ordinal),
        ["kept"] = new(StringComparer.Ordinal),
        ["sending"] = new(StringComparer.Ordinal),
    };

    private readonly Dictionary<string, string> _settings = [];

    /// <summary>What the browser says to every write; null while it writes.</summary>
    public string? Full { get; set; }

    public string? OpenedStore { get; private set; }

    public int Reloads { get; private set; }

    public List<(string Name, string Text)> Saved { get; } = [];

    public List<(string Name, byte[] Bytes)> SavedBytes { get; } = [];

    public string Language { get; set; } = "en-GB";

    public IReadOnlyDictionary<string, string> Part(string part) => _parts[part];

    public Task OpenAsync(string name, Action<string> onNews)
    {
        OpenedStore = name;
        Hears = onNews;
        return Task.CompletedTask;
    }

    /// <summary>What happens after a part was read and before the page gets it.</summary>
    public Func<string, Task> AfterReading { get; set; } = _ => Task.CompletedTask;

    public async Task<string> LoadAsync(string part)
    {
        string rows = $"[{string.Join(',', _parts[part].Values)}]";
        await AfterReading(part);
        return rows;
    }

    public Task<string?> KeptAsync(string name) => Task.FromResult(_parts["kept"].GetValueOrDefault(name));

    public Task WriteAsync(StoreWrite write)
    {
        if (Full is not null)
        {
            return Task.FromException(new InvalidOperationException(Full));
        }

        foreach ((string id, string json) in write.Records)
        {
            _parts["records"][id] = json;
        }

        foreach ((string id, string json) in write.Waiting)
        {
            _parts["waiting"][id] = json;
        }

        foreach (string gone in write.Gone)
        {
            _parts["waiting"].Remove(gone);
        }

        foreach ((string name, string text) in write.Kept)
        {
            _parts["kept"][name] = text;
        }

        WritePhotos(write);
        return Task.CompletedTask;
    }

    public void Tell(string news) => OtherTab?.Invoke(news);

    /// <summary>What other tabs are told.</summary>
    public Action<string>? OtherTab { get; set; }

    /// <summary>What this tab hears.</summary>
    public Action<string>? Hears { get; private set; }

    /// <summary>Whether this tab talks to the server from the beginning; otherwise when <see cref="TakesLead"/> is called.</summary>
    public bool LeadsAtOnce { get; set; } = true;

    public Action? TakesLead { get; private set; }

    public void Lead(string name, Action onLead)
    {
        TakesLead = onLead;
        if (LeadsAtOnce)
        {
            onLead();
        }
    }

    public void Listen(string url, Action<string> onEvent, Action<bool> onState) => onState(true);

    public bool HasPasskeys { get; set; }

    public Task<string?> MakePasskeyAsync(string options) => Task.FromResult<string?>(null);

    public Task<string?> AskPasskeyAsync(string options) => Task.FromResult<string?>(null);

    public void StopListening()
    {
    }

    public void OnConnection(Action onChange)
    {
    }

    public void Remember(string name, string? value)
    {
        if (value is null)
        {
            _settings.Remove(name);
        }
        else
        {
            _settings[name] = value;
        }
    }

    public string? Remembered(string name) => _settings.GetValueOrDefault(name);

    public DeviceRoom Room { get; set; } = new(1e6, 1e9, true);

    public Task<DeviceRoom> RoomAsync() => Task.FromResult(Room);

    public bool AsksBeforeLeaving { get; private set; }

    public void AskBeforeLeaving(bool ask) => AsksBeforeLeaving = ask;

    public Dictionary<string, string> Drafts { get; } = [];

    /// <summary>What happens before a draft is read.</summary>
    public Func<Task> BeforeDraft { get; set; } = () => Task.CompletedTask;

    public async Task<string?> DraftAsync(string form)
    {
        await BeforeDraft();
        return Drafts.GetValueOrDefault(form);
    }

    public Task KeepDraftAsync(string form, string? text)
    {
        if (text is null)
        {
            Drafts.Remove(form);
        }
        else
        {
            Drafts[form] = text;
        }

        return Task.CompletedTask;
    }

    public Task OnBuildAsync(Action onReady) => Task.CompletedTask;

    public Task TakeOverAsync() => Task.CompletedTask;

    public void Focus(string id)
    {
    }

    public void OnKeys(Func<string, bool> onKey)
    {
    }

    public void Show(string? appearance, string language)
    {
    }

    public void Reload() => Reloads++;

    public void Print() => Prints++;

    /// <summary>How often paper was asked for.</summary>
    public int Prints { get; private set; }

    public void SaveFile(string name, string type, string text) => Saved.Add((name, text));

    public void SaveFile(string name, string type, byte[] bytes) => SavedBytes.Add((name, bytes));
}
