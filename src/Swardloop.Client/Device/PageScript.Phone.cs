using System.Runtime.InteropServices.JavaScript;

namespace Swardloop.Client.Device;

/// <content>The functions of <c>phone.js</c>.</content>
public static partial class PageScript
{
    [JSImport("globalThis.swardloop.canStayAwake")]
    internal static partial bool CanStayAwake();

    [JSImport("globalThis.swardloop.stayAwake")]
    internal static partial void StayAwake(bool on, [JSMarshalAs<JSType.Function<JSType.Boolean>>] Action<bool> onState);

    [JSImport("globalThis.swardloop.position")]
    internal static partial Task<string> Position();

    [JSImport("globalThis.swardloop.shrink")]
    internal static partial Task<JSObject?> Shrink(string field, int longest, int shortest);

    [JSImport("globalThis.swardloop.photo")]
    internal static partial Task<JSObject?> Photo(string key);

    [JSImport("globalThis.swardloop.show")]
    internal static partial string Show(byte[] bytes);

    [JSImport("globalThis.swardloop.hide")]
    internal static partial void Hide(string url);

    [JSImport("globalThis.swardloop.hold")]
    internal static partial void Hold(string key, byte[] bytes);

    [JSImport("globalThis.swardloop.keepPhoto")]
    internal static partial Task KeepPhoto(string key, byte[] bytes);

    [JSImport("globalThis.swardloop.photoSizes")]
    internal static partial Task<string> PhotoSizes();

    [JSImport("globalThis.swardloop.dropPhotos")]
    internal static partial Task DropPhotos(string[] keys);
}
