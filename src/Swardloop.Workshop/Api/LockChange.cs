namespace Swardloop.Workshop.Api;

/// <summary>Whether an account is shut from now on.</summary>
public sealed record LockChange(bool IsLocked);
