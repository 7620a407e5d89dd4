namespace Swardloop.Workshop.Api;

/// <summary>Who is signed in, and how the workshop stands.</summary>
/// <param name="Name">Name shown; null when nobody is signed in.</param>
/// <param name="Email">Sign-in name; null when nobody is signed in.</param>
/// <param name="Role">What the person may do; null when nobody is signed in.</param>
/// <param name="MustChangePassword">Whether somebody else chose the password: nothing else is to be done before it is changed.</param>
/// <param name="Workshop">Identity of this workshop's data, made with the database and kept through backup and restore: a device keeps the records
/// of one workshop apart from those of another, demo or real, that it met at the same address.</param>
/// <param name="IsDemo">Whether this is the demo workshop: to be said on every page.</param>
/// <param name="NeedsFirstAccount">Whether the workshop has no account yet, and the one-time code on the server's console makes one.</param>
/// <param name="Build">The server's build: a page of another build is to be renewed.</param>
public sealed record Me(string? Name, string? Email, Role? Role, bool MustChangePassword, Guid Workshop, bool IsDemo, bool NeedsFirstAccount, string Build);
