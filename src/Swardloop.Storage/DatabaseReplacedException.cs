namespace Swardloop.Storage;

/// <summary>The database is no longer the one that this server opened: a copy was put in its place. What is written to it, or to the one that is
/// gone, would be lost or would damage it.</summary>
public sealed class DatabaseReplacedException(string message) : Exception(message);
