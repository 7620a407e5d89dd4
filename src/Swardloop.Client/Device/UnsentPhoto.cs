namespace Swardloop.Client.Device;

/// <summary>A photo in a file of what is not sent.</summary>
/// <param name="Id">Its record.</param>
/// <param name="Large">JPEG as it goes to the server.</param>
/// <param name="Small">JPEG for lists; null when the device had none.</param>
public sealed record UnsentPhoto(Guid Id, byte[] Large, byte[]? Small);
