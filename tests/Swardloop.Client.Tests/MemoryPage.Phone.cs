using Swardloop.Client.Device;

namespace Swardloop.Client.Tests;

/// <content>Lamp, position and camera of a device in memory.</content>
internal sealed partial class MemoryPage
{
    private readonly Dictionary<string, byte[]> _held = [];

    /// <summary>Bytes of photos in the store.</summary>
    public Dictionary<string, byte[]> Photos { get; } = [];

    /// <summary>What the camera gives next; null for no picture.</summary>
    public TakenPhoto? Camera { get; set; }

    public DevicePosition Position { get; set; } = new(0, 0, 0, "denied");

    public bool CanStayAwake { get; set; } = true;

    public bool IsAwake { get; private set; }

    public void StayAwake(bool on, Action<bool> onState)
    {
        IsAwake = on;
        onState(on);
    }

    public Task<DevicePosition> PositionAsync() => Task.FromResult(Position);

    public Task<TakenPhoto?> ShrinkAsync(string field) => Task.FromResult(Camera);

    public void HoldPhoto(string key, byte[] jpeg) => _held[key] = jpeg;

    public Task KeepPhotoAsync(string key, byte[] jpeg)
    {
        Photos[key] = jpeg;
        return Task.CompletedTask;
    }

    /// <summary>What reading a photo fails with; null while the store can be read.</summary>
    public string? Unreadable { get; set; }

    public Task<byte[]?> PhotoAsync(string key) =>
        Unreadable is null ? Task.FromResult(Photos.GetValueOrDefault(key)) : Task.FromException<byte[]?>(new InvalidOperationException(Unreadable));

    public Task<IReadOnlyList<string>> PhotoSizesAsync() => Task.FromResult<IReadOnlyList<string>>([.. Photos.Select(photo => $"{photo.Key} {photo.Value.Length}")]);

    public Task DropPhotosAsync(IReadOnlyList<string> keys)
    {
        foreach (string key in keys)
        {
            Photos.Remove(key);
        }

        return Task.CompletedTask;
    }

    public string ShowPhoto(byte[] jpeg) => $"data:image/jpeg;base64,{Convert.ToBase64String(jpeg)}";

    public void HidePhoto(string address)
    {
    }

    private void WritePhotos(StoreWrite write)
    {
        foreach ((string id, string json) in write.Sending)
        {
            _parts["sending"][id] = json;
            foreach ((string key, byte[] bytes) in _held.Where(held => held.Key.StartsWith(id, StringComparison.Ordinal)).ToArray())
            {
                Photos[key] = bytes;
                _held.Remove(key);
            }
        }

        foreach (string sent in write.Sent)
        {
            _parts["sending"].Remove(sent);
        }

        foreach (string key in write.PhotosGone)
        {
            Photos.Remove(key);
        }
    }
}
