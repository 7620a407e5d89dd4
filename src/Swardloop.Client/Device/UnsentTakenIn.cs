namespace Swardloop.Client.Device;

/// <summary>What taking in a file of unsent changes and photos came to.</summary>
/// <param name="Changes">Changes that were new here.</param>
/// <param name="ChangesHeld">Changes that the file holds.</param>
/// <param name="Photos">Photos that were new here.</param>
/// <param name="PhotosHeld">Photos that the file holds.</param>
/// <param name="PhotosUnknown">Photos left in the file: this device does not know their records yet.</param>
public sealed record UnsentTakenIn(int Changes, int ChangesHeld, int Photos, int PhotosHeld, int PhotosUnknown);
