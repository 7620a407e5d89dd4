namespace Swardloop.Server.Accounts;

/// <summary>Who may call an endpoint. Every endpoint has one of these, or is on the list of those open to everybody.</summary>
internal static class Rule
{
    /// <summary>Everybody with an account.</summary>
    public const string Read = "read";

    /// <summary>Those who change records: desk, technician, principal. Which kinds, <see cref="Workshop.Records.RecordRights"/> says.</summary>
    public const string Write = "write";

    /// <summary>The owner of the workshop.</summary>
    public const string Principal = "principal";

    /// <summary>Whoever is signed in, be it only to change the password that somebody else chose.</summary>
    public const string SignedIn = "signed-in";
}
