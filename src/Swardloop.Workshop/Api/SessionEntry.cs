namespace Swardloop.Workshop.Api;

/// <summary>A browser in which a person is signed in.</summary>
/// <param name="Id">The session.</param>
/// <param name="Person">Whose it is.</param>
/// <param name="Device">Browser and system, as the browser says.</param>
/// <param name="StartedAt">When the person signed in.</param>
/// <param name="SeenAt">When it was last used, to some minutes.</param>
/// <param name="IsThis">Whether it is the one that asks.</param>
public sealed record SessionEntry(Guid Id, string Person, string Device, DateTimeOffset StartedAt, DateTimeOffset SeenAt, bool IsThis);
