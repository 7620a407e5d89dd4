namespace Swardloop.Workshop.Api;

/// <summary>A person of the workshop.</summary>
/// <param name="Id">The account.</param>
/// <param name="Name">Name shown.</param>
/// <param name="Email">Sign-in name.</param>
/// <param name="Role">What the person may do.</param>
/// <param name="IsLocked">Whether the account is shut.</param>
/// <param name="HasPasskey">Whether a passkey is set up.</param>
/// <param name="Code">The one-time code of an invitation, told once, to whoever invites; null otherwise.</param>
/// <param name="CodeUntil">Until when that code is good.</param>
public sealed record PersonEntry(
    Guid Id, string Name, string Email, Role Role, bool IsLocked, bool HasPasskey, string? Code = null, DateTimeOffset? CodeUntil = null);
