namespace Swardloop.Client.Device;

/// <summary>A file of unsent changes was made in another workshop: in this one they would be strangers' records.</summary>
public sealed class OtherWorkshopException() : Exception("The file is of another workshop.");
