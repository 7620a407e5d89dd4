namespace Swardloop.Client.Device;

/// <summary>A photo as it was just taken and shrunk on the device: two JPEGs without anything else in them.</summary>
/// <param name="Large">Longest side 1,600 pixels at most.</param>
/// <param name="Small">For lists.</param>
/// <param name="TakenAt">When the camera wrote it, by the device's clock.</param>
public sealed record TakenPhoto(byte[] Large, byte[] Small, DateTimeOffset TakenAt)
{
    /// <summary>Longest sides (pixels).</summary>
    public const int LargePixels = 1600, SmallPixels = 320;
}
