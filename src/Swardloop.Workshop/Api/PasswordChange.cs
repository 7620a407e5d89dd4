namespace Swardloop.Workshop.Api;

/// <summary>A person's own new password.</summary>
public sealed record PasswordChange(string Current, string Password);
