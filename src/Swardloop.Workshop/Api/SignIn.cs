namespace Swardloop.Workshop.Api;

/// <summary>Signs in with a password.</summary>
public sealed record SignIn(string Email, string Password);
