namespace Swardloop.Client.Device;

/// <summary>A photo whose picture lies on this device.</summary>
/// <param name="Photo">Its record.</param>
/// <param name="Bytes">What it takes, large and small together (bytes).</param>
public sealed record KeptPhoto(Guid Photo, double Bytes);
