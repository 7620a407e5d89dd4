namespace Swardloop.Workshop.Api;

/// <summary>What a person may do from now on.</summary>
public sealed record RoleChange(Role Role);
