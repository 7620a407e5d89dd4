namespace Swardloop.Storage;

/// <summary>One signed-in browser of a person, from signing in to signing out. Its cookie opens nothing once the row says that it is over.</summary>
public sealed class Session
{
    /// <summary>The session.</summary>
    public Guid Id { get; set; }

    /// <summary>Whose it is.</summary>
    public Guid Account { get; set; }

    /// <summary>SHA-256 of the secret in its cookie, hexadecimal: whoever reads the database cannot make the cookie.</summary>
    public string SecretHash { get; set; } = "";

    /// <summary>Browser and system, in a few words.</summary>
    public string Device { get; set; } = "";

    /// <summary>When the person signed in, UTC.</summary>
    public DateTimeOffset StartedAt { get; set; }

    /// <summary>When it was last used, UTC, to some minutes.</summary>
    public DateTimeOffset SeenAt { get; set; }

    /// <summary>When it was ended, UTC; null while it goes on.</summary>
    public DateTimeOffset? EndedAt { get; set; }
}
