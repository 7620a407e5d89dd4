using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Swardloop.Client.Device;

/// <summary>The browser: IndexedDB, web locks, a broadcast channel between tabs, local storage for settings.</summary>
[SupportedOSPlatform("browser")]
public sealed partial class BrowserPage : IDevicePage
{
    public string Language => PageScript.Language();

    public Task OpenAsync(string name, Action<string> onNews) => PageScript.Open(name, onNews);

    public Task<string> LoadAsync(string part) => PageScript.Load(part);

    public Task<string?> KeptAsync(string name) => PageScript.Kept(name);

    public Task WriteAsync(StoreWrite write)
    {
        return PageScript.Write(
            Keys(write.Records), Values(write.Records), Keys(write.Waiting), Values(write.Waiting), [.. write.Gone], Keys(write.Kept), Values(write.Kept),
            Keys(write.Sending), Values(write.Sending), [.. write.Sent], [.. write.PhotosGone], write.News);

        static string[] Keys(IReadOnlyList<KeyValuePair<string, string>> rows) => [.. rows.Select(row => row.Key)];
        static string[] Values(IReadOnlyList<KeyValuePair<string, string>> rows) => [.. rows.Select(row => row.Value)];
    }

    public void Tell(string news) => PageScript.Tell(news);

    public void Lead(string name, Action onLead) => PageScript.Lead(name, onLead);

    public void Listen(string url, Action<string> onEvent, Action<bool> onState) => PageScript.Listen(url, onEvent, onState);

    public void StopListening() => PageScript.StopListening();

    public void OnConnection(Action onChange) => PageScript.OnConnection(onChange);

    public void Remember(string name, string? value) => PageScript.Remember(name, value);

    public string? Remembered(string name) => PageScript.Remembered(name);

    public void Show(string? appearance, string language)
    {
        PageScript.Appearance(appearance);
        PageScript.Speak(language);
    }

    public async Task<DeviceRoom> RoomAsync()
    {
        string[] said = (await PageScript.Room().ConfigureAwait(true)).Split(' ');
        return new(double.Parse(said[0], CultureInfo.InvariantCulture), double.Parse(said[1], CultureInfo.InvariantCulture), said[2] == "true");
    }

    public void AskBeforeLeaving(bool ask) => PageScript.AskBeforeLeaving(ask);

    public Task<string?> DraftAsync(string form) => PageScript.Draft(form);

    public Task KeepDraftAsync(string form, string? text) => PageScript.KeepDraft(form, text);

    public Task OnBuildAsync(Action onReady) => PageScript.OnBuild(onReady);

    public Task TakeOverAsync() => PageScript.TakeOver();

    public bool HasPasskeys => PageScript.HasPasskeys();

    public Task<string?> MakePasskeyAsync(string options) => UnlessDeclined(PageScript.MakePasskey(options));

    public Task<string?> AskPasskeyAsync(string options) => UnlessDeclined(PageScript.AskPasskey(options));

    public void Focus(string id) => PageScript.Focus(id);

    public void OnKeys(Func<string, bool> onKey) => PageScript.OnKeys(onKey);

    public void Print() => PageScript.Print();

    public void Reload() => PageScript.Reload();

    public void SaveFile(string name, string type, string text) => PageScript.SaveFile(name, type, text);

    public void SaveFile(string name, string type, byte[] bytes) => PageScript.SaveFile(name, type, bytes);

    private static async Task<string?> UnlessDeclined(Task<string> asking)
    {
        try
        {
            return await asking.ConfigureAwait(true);
        }
        catch (JSException)
        {
            return null;
        }
    }
}
