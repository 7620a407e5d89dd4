using System.Runtime.InteropServices.JavaScript;

namespace Swardloop.Client.Device;

/// <content>Lamp, position and camera.</content>
public sealed partial class BrowserPage
{
    public bool CanStayAwake => PageScript.CanStayAwake();

    public void StayAwake(bool on, Action<bool> onState) => PageScript.StayAwake(on, onState);

    public async Task<DevicePosition> PositionAsync() => DevicePosition.Read(await PageScript.Position().ConfigureAwait(true));

    public async Task<TakenPhoto?> ShrinkAsync(string field)
    {
        using JSObject? taken = await PageScript.Shrink(field, TakenPhoto.LargePixels, TakenPhoto.SmallPixels).ConfigureAwait(true);
        return taken?.GetPropertyAsByteArray("large") is { } large && taken.GetPropertyAsByteArray("small") is { } small
            ? new(large, small, DateTimeOffset.FromUnixTimeMilliseconds((long)taken.GetPropertyAsDouble("modified")).ToLocalTime())
            : null;
    }

    public async Task<byte[]?> PhotoAsync(string key)
    {
        using JSObject? held = await PageScript.Photo(key).ConfigureAwait(true);
        return held?.GetPropertyAsByteArray("bytes");
    }

    public void HoldPhoto(string key, byte[] jpeg) => PageScript.Hold(key, jpeg);

    public Task KeepPhotoAsync(string key, byte[] jpeg) => PageScript.KeepPhoto(key, jpeg);

    public async Task<IReadOnlyList<string>> PhotoSizesAsync() => (await PageScript.PhotoSizes().ConfigureAwait(true)).Split('\n', StringSplitOptions.RemoveEmptyEntries);

    public Task DropPhotosAsync(IReadOnlyList<string> keys) => PageScript.DropPhotos([.. keys]);

    public string ShowPhoto(byte[] jpeg) => PageScript.Show(jpeg);

    public void HidePhoto(string address) => PageScript.Hide(address);
}
