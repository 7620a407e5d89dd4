namespace Swardloop.Client.Device;

/// <summary>What the device gives the program: its store, its other tabs, its settings. A browser has it; tests keep it in memory.</summary>
public partial interface IDevicePage
{
    /// <summary>Opens the store of one workshop.</summary>
    /// <param name="name">Name of the store.</param>
    /// <param name="onNews">Hears what other tabs wrote.</param>
    Task OpenAsync(string name, Action<string> onNews);

    /// <summary>Everything in one part of the store, as a JSON array.</summary>
    Task<string> LoadAsync(string part);

    /// <summary>A single kept text; null when there is none.</summary>
    Task<string?> KeptAsync(string name);

    /// <summary>Writes in one transaction and tells the other tabs.</summary>
    /// <exception cref="Exception">It is not written.</exception>
    Task WriteAsync(StoreWrite write);

    /// <summary>Tells the other tabs something.</summary>
    void Tell(string news);

    /// <summary>Calls back when this tab is the one to talk to the server.</summary>
    void Lead(string name, Action onLead);

    /// <summary>Hears the server's news.</summary>
    void Listen(string url, Action<string> onEvent, Action<bool> onState);

    /// <summary>Hears no more.</summary>
    void StopListening();

    /// <summary>Calls back when the connection may be back.</summary>
    void OnConnection(Action onChange);

    /// <summary>Opens the browser's way to paper or PDF.</summary>
    void Print();

    /// <summary>Keeps a small setting; null forgets it.</summary>
    void Remember(string name, string? value);

    /// <summary>A setting kept.</summary>
    string? Remembered(string name);

    /// <summary>The browser's own language.</summary>
    string Language { get; }

    /// <summary>Light, dark or as the device has it (null); and the language of the page.</summary>
    void Show(string? appearance, string language);

    /// <summary>Room in the store.</summary>
    Task<DeviceRoom> RoomAsync();

    /// <summary>Whether the browser asks before the page is left, since something on it is saved nowhere.</summary>
    void AskBeforeLeaving(bool ask);

    /// <summary>What was typed into a form and is not yet added; null when there is nothing.</summary>
    /// <param name="form">Name of the form.</param>
    Task<string?> DraftAsync(string form);

    /// <summary>Keeps what is typed into a form; null forgets it. Never fails: a draft that cannot be kept is still on the screen.</summary>
    Task KeepDraftAsync(string form, string? text);

    /// <summary>Whether passkeys can be made and asked for here.</summary>
    bool HasPasskeys { get; }

    /// <summary>Has the browser make a passkey.</summary>
    /// <param name="options">The server's options.</param>
    /// <returns>The credential for the server; null when the person or the browser declined.</returns>
    Task<string?> MakePasskeyAsync(string options);

    /// <summary>Has the browser ask for a passkey.</summary>
    /// <param name="options">The server's options.</param>
    /// <returns>The credential for the server; null when the person or the browser declined.</returns>
    Task<string?> AskPasskeyAsync(string options);

    /// <summary>Puts the focus on an element by its id.</summary>
    void Focus(string id);

    /// <summary>Hears keys pressed while nobody types; true when it was meant for us.</summary>
    void OnKeys(Func<string, bool> onKey);

    /// <summary>Calls back when a new build of the program lies ready on the device.</summary>
    Task OnBuildAsync(Action onReady);

    /// <summary>Changes to the new build, in all tabs at once.</summary>
    Task TakeOverAsync();

    /// <summary>Loads the page again.</summary>
    void Reload();

    /// <summary>Gives the person a file.</summary>
    void SaveFile(string name, string type, string text);

    /// <summary>Gives the person a file of bytes.</summary>
    void SaveFile(string name, string type, byte[] bytes);
}
