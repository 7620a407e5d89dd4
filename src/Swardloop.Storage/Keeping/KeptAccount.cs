using Swardloop.Workshop.Api;

namespace Swardloop.Storage.Keeping;

/// <summary>An account in a backup: with its password's hash, so that people sign in as before. Passkeys are set up anew.</summary>
public sealed record KeptAccount(Guid Id, string Name, string Email, Role Role, bool MustChangePassword, DateTimeOffset? LockedUntil, string? PasswordHash);
