namespace Swardloop.Client.Device;

/// <content>What a phone has beside its screen.</content>
public partial interface IDevicePage
{
    /// <summary>Whether the screen can be kept lit.</summary>
    bool CanStayAwake { get; }

    /// <summary>Keeps the screen lit, or lets it go dark; tells whether it is kept so, whenever that changes.</summary>
    void StayAwake(bool on, Action<bool> onState);

    /// <summary>Where the device is; asks the person for leave.</summary>
    Task<DevicePosition> PositionAsync();

    /// <summary>The photo just chosen in a file field, shrunk; null when there is none, or it is no picture that this browser can read.</summary>
    /// <param name="field">Id of the field; it is emptied.</param>
    Task<TakenPhoto?> ShrinkAsync(string field);

    /// <summary>Holds a photo's bytes for the next write that names its record as sending.</summary>
    void HoldPhoto(string key, byte[] jpeg);

    /// <summary>Keeps the bytes of a photo that the server has; never fails: without room it is fetched again next time.</summary>
    Task KeepPhotoAsync(string key, byte[] jpeg);

    /// <summary>The bytes of a photo in the device's store; null when it is not there.</summary>
    Task<byte[]?> PhotoAsync(string key);

    /// <summary>The keys of photos whose bytes are in the store, each followed by a blank and how many bytes they are.</summary>
    Task<IReadOnlyList<string>> PhotoSizesAsync();

    /// <summary>Removes bytes of photos from the store.</summary>
    Task DropPhotosAsync(IReadOnlyList<string> keys);

    /// <summary>An address in this page that shows a JPEG.</summary>
    string ShowPhoto(byte[] jpeg);

    /// <summary>Lets an address go.</summary>
    void HidePhoto(string address);
}
