namespace Swardloop.Workshop.Api;

/// <summary>Adds a person.</summary>
/// <param name="Name">Name shown.</param>
/// <param name="Email">Sign-in name.</param>
/// <param name="Role">What the person may do.</param>
/// <param name="Password">A password to be changed at the first sign-in; null for an invitation with a one-time code.</param>
public sealed record NewPerson(string Name, string Email, Role Role, string? Password = null);
