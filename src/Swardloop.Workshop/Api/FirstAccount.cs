namespace Swardloop.Workshop.Api;

/// <summary>Makes the workshop's first account, its principal.</summary>
public sealed record FirstAccount(string Code, string Name, string Email, string Password);
