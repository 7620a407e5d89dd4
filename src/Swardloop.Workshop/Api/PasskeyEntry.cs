namespace Swardloop.Workshop.Api;

/// <summary>A passkey of one's own account.</summary>
/// <param name="Id">Its credential id, base64url.</param>
/// <param name="Name">What its owner calls it; null when not named.</param>
/// <param name="CreatedAt">When it was added.</param>
public sealed record PasskeyEntry(string Id, string? Name, DateTimeOffset CreatedAt);
