using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Swardloop.Client.Device;

/// <summary>The functions of <c>page.js</c>.</summary>
[SupportedOSPlatform("browser")]
public static partial class PageScript
{
    [JSImport("globalThis.swardloop.open")]
    internal static partial Task Open(string name, [JSMarshalAs<JSType.Function<JSType.String>>] Action<string> onNews);

    [JSImport("globalThis.swardloop.load")]
    internal static partial Task<string> Load(string store);

    [JSImport("globalThis.swardloop.kept")]
    internal static partial Task<string?> Kept(string name);

    [JSImport("globalThis.swardloop.write")]
    internal static partial Task Write(
        string[] recordIds, string[] records, string[] waitingIds, string[] waiting, string[] gone, string[] keptNames, string[] kept,
        string[] sendingIds, string[] sending, string[] sent, string[] photosGone, string? news);

    [JSImport("globalThis.swardloop.tell")]
    internal static partial void Tell(string news);

    [JSImport("globalThis.swardloop.lead")]
    internal static partial void Lead(string name, [JSMarshalAs<JSType.Function>] Action onLead);

    [JSImport("globalThis.swardloop.listen")]
    internal static partial void Listen(
        string url, [JSMarshalAs<JSType.Function<JSType.String>>] Action<string> onEvent, [JSMarshalAs<JSType.Function<JSType.Boolean>>] Action<bool> onState);

    [JSImport("globalThis.swardloop.stopListening")]
    internal static partial void StopListening();

    [JSImport("globalThis.swardloop.room")]
    internal static partial Task<string> Room();

    [JSImport("globalThis.swardloop.askBeforeLeaving")]
    internal static partial void AskBeforeLeaving(bool ask);

    [JSImport("globalThis.swardloop.draft")]
    internal static partial Task<string?> Draft(string form);

    [JSImport("globalThis.swardloop.keepDraft")]
    internal static partial Task KeepDraft(string form, string? text);

    [JSImport("globalThis.swardloop.remember")]
    internal static partial void Remember(string name, string? value);

    [JSImport("globalThis.swardloop.remembered")]
    internal static partial string? Remembered(string name);

    [JSImport("globalThis.swardloop.language")]
    internal static partial string Language();

    [JSImport("globalThis.swardloop.appearance")]
    internal static partial void Appearance(string? value);

    [JSImport("globalThis.swardloop.speak")]
    internal static partial void Speak(string language);

    [JSImport("globalThis.print")]
    internal static partial void Print();

    [JSImport("globalThis.swardloop.reload")]
    internal static partial void Reload();

    [JSImport("globalThis.swardloop.saveFile")]
    internal static partial void SaveFile(string name, string type, string text);

    [JSImport("globalThis.swardloop.saveFile")]
    internal static partial void SaveFile(string name, string type, byte[] bytes);

    [JSImport("globalThis.swardloop.hasPasskeys")]
    internal static partial bool HasPasskeys();

    [JSImport("globalThis.swardloop.makePasskey")]
    internal static partial Task<string> MakePasskey(string options);

    [JSImport("globalThis.swardloop.askPasskey")]
    internal static partial Task<string> AskPasskey(string options);

    [JSImport("globalThis.swardloop.focus")]
    internal static partial void Focus(string id);

    [JSImport("globalThis.swardloop.onKeys")]
    internal static partial void OnKeys([JSMarshalAs<JSType.Function<JSType.String, JSType.Boolean>>] Func<string, bool> onKey);

    [JSImport("globalThis.swardloop.onBuild")]
    internal static partial Task OnBuild([JSMarshalAs<JSType.Function>] Action onReady);

    [JSImport("globalThis.swardloop.takeOver")]
    internal static partial Task TakeOver();

    [JSImport("globalThis.swardloop.onConnection")]
    internal static partial void OnConnection([JSMarshalAs<JSType.Function>] Action onChange);
}
