namespace Swardloop.Workshop.Api;

/// <summary>Adds a person; the password is to be changed at the first sign-in.</summary>
public sealed record NewPerson(string Name, string Email, Role Role, string Password);
