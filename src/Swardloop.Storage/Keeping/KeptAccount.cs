using Swardloop.Workshop.Api;

namespace Swardloop.Storage.Keeping;

/// <summary>An account in a backup: with its password's hash and its passkeys, so that people sign in as before. Passkeys
/// and practice yards are null in backups of programs that did not keep them.</summary>
public sealed record KeptAccount(
    Guid Id, string Name, string Email, Role Role, bool MustChangePassword, DateTimeOffset? LockedUntil, string? PasswordHash, IReadOnlyList<KeptPasskey>? Passkeys = null,
    DateTimeOffset? PasswordUntil = null, IReadOnlyList<PracticeRun>? Practice = null);
